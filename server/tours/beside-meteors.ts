import { backdropOf } from '../sight/backdrop.ts'
import { limitThrough } from '../sight/limit.ts'
import type { ChanceAndView } from '../sight/sighting.ts'
import type { SkyGeometry } from '../sight/sky-brightness.ts'
import { radians, wrap180 } from '../sky/angles.ts'
import type { Aid } from './beside-aids.ts'
import { sunLongitudeDeg } from './shower-peak.ts'
import type { Shower } from './target.ts'

const ZHR_LIMIT_MAG = 6.5 // the zenithal rate is that under a sky in which stars of 6.5 are seen (IMO)
const POPULATION_INDEX = 2.5 // so many times more meteors each magnitude fainter; usual, from memory
const LEFT_AT_END = 0.05 // a twentieth of the peak on the first and last day; a choice
const LOOK_MIN = 10
const METEOR_VIEW = 1 // who sees one cries out (common practice, no source)

/** The share of its peak that a shower has at an instant: 1 at the peak, a twentieth on its first and last day, 0 outside. */
export function showerShare({ peakSunDeg, fromSunDeg, toSunDeg }: Shower, at: Date): number {
  const away = wrap180(sunLongitudeDeg(at) - peakSunDeg)
  const reach = away < 0 ? wrap180(fromSunDeg - peakSunDeg) : wrap180(toSunDeg - peakSunDeg)
  return reach !== 0 && away / reach <= 1 ? LEFT_AT_END ** (away / reach) : 0
}

/** People look for meteors about so high, on the side of the radiant (IMO). */
export const WATCHED_DEG = 50

/**
 * How many meteors of a shower at such a share of its peak an hour of looking shows a newcomer, by how high its radiant
 * stands and what the sky is like where people look: rate x sine of the height x 2.5 to the power of what lacks to 6.5.
 */
export function meteorsPerHour(rate: number, radiantDeg: number, watched: SkyGeometry, aid: Aid): number {
  const { skyCd, air } = backdropOf(watched, aid.conditions)
  const { starMag } = limitThrough(aid.view, aid.conditions)(skyCd, air)
  const height = Math.max(0, Math.sin(radians(radiantDeg)))
  return rate * height * POPULATION_INDEX ** Math.min(0, starMag - ZHR_LIMIT_MAG)
}

/** The chance that somebody who looks up for ten minutes sees one of so many an hour (they fall at random). */
export const meteorSeen = (perHour: number): ChanceAndView => ({
  chance: 1 - Math.exp((-perHour * LOOK_MIN) / 60),
  view: METEOR_VIEW,
})

/** How many an hour it takes for such a chance. */
export const perHourFor = (chance: number): number => (-60 / LOOK_MIN) * Math.log(1 - chance)
