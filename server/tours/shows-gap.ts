import type { Conditions } from '../sight/conditions.ts'
import type { ShownTube, ShownView } from './shows.ts'
import { EASY_PUPIL_MM, MOON_FIELD_DEG, PLANET_POWER } from './shows-remarks.ts'
import type { Remark } from './tour.ts'

/** What the eyepieces of a telescope lack most, with the focal length in mm that would mend it. */
export function gapOf(tubes: readonly ShownTube[], { pupilMm }: Pick<Conditions, 'pupilMm'>): Remark {
  const some = (fits: (view: ShownView['view'], tube: ShownTube) => boolean): boolean =>
    tubes.some((tube) => tube.views.some(({ view }) => view.powerX <= tube.highestPowerX && fits(view, tube)))
  const mostPupilMm = Math.min(EASY_PUPIL_MM.most, pupilMm)
  if (!some(({ exitPupilMm }) => exitPupilMm >= EASY_PUPIL_MM.least && exitPupilMm <= mostPupilMm)) {
    return { code: 'kit.gap-easy', values: { focal: Math.round(easyFocalMm(tubes)) } }
  }
  if (!some(({ trueFieldDeg }) => trueFieldDeg >= MOON_FIELD_DEG)) return { code: 'kit.gap-moon' }
  const [strongest] = tubes.toSorted((a, b) => b.highestPowerX - a.highestPowerX)
  const leastX = strongest === undefined ? 0 : Math.min(PLANET_POWER.least, strongest.highestPowerX)
  if (strongest === undefined || some(({ powerX }) => powerX >= leastX)) return { code: 'kit.gap-none' }
  const focal = Math.round(strongest.tube.focalLengthMm / leastX)
  return { code: 'kit.gap-planets', values: { focal, power: Math.round(leastX) } }
}

/** The eyepiece with an exit pupil in the middle of what is easy, in the shortest tube. */
function easyFocalMm(tubes: readonly ShownTube[]): number {
  const middleMm = (EASY_PUPIL_MM.least + EASY_PUPIL_MM.most) / 2
  return Math.min(...tubes.map(({ tube }) => (middleMm * tube.focalLengthMm) / tube.apertureMm))
}
