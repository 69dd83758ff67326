import { lossMag } from '../sight/limit.ts'
import { skyCd } from '../sight/sky-brightness.ts'
import { BLACK_CD, magFromLux, pointLux } from '../sight/threshold.ts'
import { airmassPickering } from '../sky/airmass.ts'
import { bodyLook } from '../sky/body.ts'
import type { Horizontal } from '../sky/horizontal.ts'
import type { Light } from './alignment-lights.ts'
import { type LookAlike, lookAlikeOf } from './alignment-rivals.ts'
import { conditionsOf } from './evening-chance.ts'
import { lightGeometry } from './light-geometry.ts'
import type { Night } from './night.ts'
import { placeCause, sunCause } from './offered.ts'
import { placeOf } from './site.ts'

/** A star to centre: how it looks, where it is seen, and what could be taken for it, or null when it stands alone. */
export type AlignmentStar = Pick<Light, 'key' | 'name' | 'magnitude' | 'colour' | 'isNearPole' | 'direction'> & {
  readonly lookAlike: LookAlike | null
}

export type AlignmentNight = Pick<Night, 'site' | 'settings' | 'stations'>

// Common practice, no source, unless said otherwise.
/** The faintest V that is easy to point out. */
export const FAINTEST_MAG = 2
const HARD_LIMITS = { lowestDeg: 15, highestDeg: 75 } as const
const OPERATOR_FACTOR = 2 // field factor of a practised observer, Crumey, MNRAS 442 (2014), 2600

/**
 * The lights that can be centred at an instant, stars or not: V 2 or brighter and bright enough for that sky, 15 to 75
 * degrees high, clear of the trees and within reach of every driven mount, then and twenty minutes later. None while the
 * Sun is up.
 */
export function centrable(lights: readonly Light[], night: AlignmentNight, at: Date): readonly Light[] {
  const limitMag = limitOver(night, at)
  return inReach(lights, night).filter(({ magnitude, direction }) => magnitude <= limitMag(direction))
}

/** The lights that could be centred if the sky were dark enough for them. */
export function inReach(lights: readonly Light[], night: AlignmentNight): readonly Light[] {
  const isClear = clearOf(night)
  return lights.filter(
    ({ magnitude, direction, laterDirection }) =>
      magnitude <= FAINTEST_MAG && isClear(direction) && isClear(laterDirection),
  )
}

/** The stars among the lights that can be centred; `lights` are all down to V 3 with planets and Moon, since any may be taken for such a star. */
export const alignmentStars = (able: readonly Light[], lights: readonly Light[]): readonly AlignmentStar[] =>
  able.filter(({ kind }) => kind === 'star').map((star) => starOf(star, lights))

function starOf(star: Light, lights: readonly Light[]): AlignmentStar {
  const { key, name, magnitude, colour, isNearPole, direction } = star
  return { key, name, magnitude, colour, isNearPole, direction, lookAlike: lookAlikeOf(star, lights) }
}

/** Mounts that are pushed by hand need no alignment and set no limit. */
function clearOf({ site, stations }: AlignmentNight): (direction: Horizontal) => boolean {
  const mounts = stations.flatMap(({ telescope }) => telescope ?? []).filter(({ mount }) => mount !== 'altaz-hand')
  const reach = {
    floorDeg: Math.max(HARD_LIMITS.lowestDeg, ...mounts.map(({ floorDeg }) => floorDeg)),
    ceilingDeg: Math.min(HARD_LIMITS.highestDeg, ...mounts.map(({ ceilingDeg }) => ceilingDeg)),
  }
  return (direction) => placeCause(direction, site, reach) === null
}

/** The faintest V that a practised bare eye sees in a direction; -Infinity while the Sun is up (Crumey's eqs. 32 and 34). */
function limitOver(night: AlignmentNight, at: Date): (direction: Horizontal) => number {
  const conditions = conditionsOf(night)
  const place = placeOf(night.site)
  const [sun, moon] = [bodyLook('sun', at, place), bodyLook('moon', at, place)]
  if (sunCause(sun) !== null) return () => Number.NEGATIVE_INFINITY
  return (direction) => {
    const backgroundCd = Math.max(BLACK_CD, skyCd(lightGeometry(direction, sun, moon), conditions))
    const lostMag = lossMag(airmassPickering(direction.altitudeDeg), conditions)
    return magFromLux(pointLux(backgroundCd)) - 2.5 * Math.log10(OPERATOR_FACTOR) - lostMag
  }
}
