import { type Conditions, DEFAULT_CONDITIONS } from '../sight/conditions.ts'
import { comfortableArcsec, splittingPower } from '../sight/double.ts'
import { limitOf } from '../sight/limit.ts'
import { transmittance, type View, viewThrough } from '../sight/optics.ts'
import { highestPower } from '../sight/power.ts'
import { siteCd } from '../sight/site-light.ts'
import type { DoubleSubject } from '../sight/subject.ts'
import { gapOf } from './shows-gap.ts'
import { viewRemarks } from './shows-remarks.ts'
import { ocularsOf, type Telescope, type Tube } from './telescope.ts'
import type { Remark } from './tour.ts'

/** What of a telescope decides what it shows. */
type Glass = Pick<Telescope, 'mount' | 'tubes' | 'eyepieces' | 'factors'>

/** One tube with one eyepiece, alone or behind a Barlow or reducer. */
export interface ShownView {
  readonly label: Remark
  readonly view: View
  /** Seconds in which a thing at the celestial equator crosses the middle of the field; null where a motor follows. */
  readonly driftSec: number | null
  /** V of the faintest star half way up that half of the newcomers see. */
  readonly starMag: number
  /** Least separation in arcseconds of two equal stars that a newcomer comfortably sees as two. */
  readonly splitArcsec: number
  /** What it is good for and what is wrong with it, heaviest first. */
  readonly remarks: readonly Remark[]
}

/** One tube with everything that can be put into it, lowest power first. */
export interface ShownTube {
  readonly tube: Tube
  /** How many times as much light reaches the eye as without a telescope. */
  readonly lightGrasp: number
  /** Below it the eye no longer takes in all the light; above it nothing more is seen in this air. */
  readonly lowestPowerX: number
  readonly highestPowerX: number
  /** The best of its views that are not too strong; null where all are. */
  readonly starMag: number | null
  readonly splitArcsec: number | null
  readonly views: readonly ShownView[]
}

export interface TelescopeShows {
  readonly tubes: readonly ShownTube[]
  /** What the kit lacks most. */
  readonly gap: Remark
}

const HALF_WAY_UP_DEG = 45
const SKY_TURNS_DEG_PER_SEC = 360 / 86_164.1 // one turn in a sidereal day
/** Stars of one brightness: where they differ, more is needed. */
const EQUAL_PAIR: DoubleSubject = { kind: 'double', magnitudes: [6, 6], separationArcsec: 1, hasColourContrast: false }

/** The usual night under a sky of so many magnitudes per square arcsecond overhead. */
export const usualNight = (zenithMag: number): Conditions => ({ ...DEFAULT_CONDITIONS, zenithMag })

/** Everything that a telescope shows with each of its eyepieces on a night such as this. */
export function showsOf(telescope: Glass, conditions: Conditions): TelescopeShows {
  const tubes = telescope.tubes.map((tube) => tubeShows(telescope, tube, conditions))
  return { tubes, gap: gapOf(tubes, conditions) }
}

function tubeShows(telescope: Glass, tube: Tube, conditions: Conditions): ShownTube {
  const highestPowerX = highestPower(tube, conditions)
  const views = ocularsOf(telescope)
    .map((ocular) => viewShows(telescope, viewThrough(tube, ocular), ocular.label, conditions))
    .toSorted((a, b) => a.view.powerX - b.view.powerX)
  const usable = views.filter(({ view }) => view.powerX <= highestPowerX)
  const { pupilMm } = conditions
  return {
    tube,
    lightGrasp: (tube.apertureMm / pupilMm) ** 2 * transmittance(tube),
    lowestPowerX: tube.apertureMm / pupilMm,
    highestPowerX,
    starMag: usable.length === 0 ? null : Math.max(...usable.map(({ starMag }) => starMag)),
    splitArcsec: usable.length === 0 ? null : Math.min(...usable.map(({ splitArcsec }) => splitArcsec)),
    views,
  }
}

function viewShows({ mount }: Glass, view: View, label: Remark, conditions: Conditions): ShownView {
  const skyCd = siteCd(HALF_WAY_UP_DEG, 180, conditions)
  return {
    label,
    view,
    driftSec: mount === 'altaz-hand' ? view.trueFieldDeg / SKY_TURNS_DEG_PER_SEC : null,
    starMag: limitOf(view, conditions)(skyCd, HALF_WAY_UP_DEG).starMag,
    splitArcsec: Math.max(
      comfortableArcsec(EQUAL_PAIR, view, conditions.seeingArcsec),
      splittingPower(EQUAL_PAIR) / view.powerX,
    ),
    remarks: viewRemarks(view, conditions),
  }
}
