import { lossMag } from '../sight/limit.ts'
import { type SkyGeometry, skyCd } from '../sight/sky-brightness.ts'
import { BLACK_CD, magFromLux, pointLux } from '../sight/threshold.ts'
import { airmassPickering } from '../sky/airmass.ts'
import { separationDeg } from '../sky/angles.ts'
import { type BodyLook, bodyLook } from '../sky/body.ts'
import type { Horizontal } from '../sky/horizontal.ts'
import { skyPass, starVectors } from '../sky/pass.ts'
import type { StarPlace } from '../sky/star.ts'
import { conditionsOf } from './evening-chance.ts'
import type { Night } from './night.ts'
import { placeCause, sunCause } from './offered.ts'
import { placeOf } from './site.ts'
import { apartDeg } from './sky-at.ts'

/** A bright star with a name, as the catalogue has it: ICRS place and motion at epoch J2000.0, V magnitude. */
export interface BrightStar {
  readonly key: string
  readonly name: string
  readonly magnitude: number
  readonly place: StarPlace
}

/** A star to centre: where it is seen, and whether nothing within 10 degrees is brighter or up to a magnitude fainter. */
export interface AlignmentStar {
  readonly key: string
  readonly name: string
  readonly magnitude: number
  readonly direction: Horizontal
  readonly isAlone: boolean
}

export type AlignmentNight = Pick<Night, 'site' | 'settings' | 'stations'>

// Common practice, no source, unless said otherwise.
/** The faintest V that is easy to point out. */
export const FAINTEST_MAG = 2
/** How much fainter than a star another may be and still be taken for it. */
export const RIVAL_MAG = 1
const RIVAL_DEG = 10
const HARD_LIMITS = { lowestDeg: 15, highestDeg: 75 } as const
const STAYS_MS = 20 * 60_000
const OPERATOR_FACTOR = 2 // field factor of a practised observer, Crumey, MNRAS 442 (2014), 2600
const KM_PER_AU = 149_597_870.7

/**
 * The stars among `stars` (down to V 3, so that rivals are in it) that can be centred at an instant: V 2 or brighter and
 * bright enough for that sky, 15 to 75 degrees high, clear of the trees and within reach of every driven mount, then and
 * twenty minutes later. None while the Sun is up.
 */
export function alignmentStars(stars: readonly BrightStar[], night: AlignmentNight, at: Date): AlignmentStar[] {
  const bright = stars.filter(({ magnitude }) => magnitude <= FAINTEST_MAG)
  const places = bright.map(({ place }) => place)
  const later = new Date(at.getTime() + STAYS_MS)
  const pass = skyPass(starVectors(places, at), [at, later], placeOf(night.site))
  const directionAt = (row: number): Horizontal => ({
    altitudeDeg: pass.altitudeDeg[row] ?? 0,
    azimuthDeg: pass.azimuthDeg[row] ?? 0,
  })
  const [isClear, limitMag] = [clearOf(night), limitOver(night, at)]
  return bright.flatMap((star, row) => {
    const direction = directionAt(row)
    if (!isClear(direction) || !isClear(directionAt(bright.length + row))) return []
    if (star.magnitude > limitMag(direction)) return []
    const { key, name, magnitude } = star
    return [{ key, name, magnitude, direction, isAlone: isAlone(star, stars) }]
  })
}

function isAlone(star: BrightStar, stars: readonly BrightStar[]): boolean {
  const { raDeg, decDeg } = star.place
  const isRival = ({ key, magnitude, place }: BrightStar) =>
    key !== star.key &&
    magnitude <= star.magnitude + RIVAL_MAG &&
    separationDeg(raDeg, decDeg, place.raDeg, place.decDeg) <= RIVAL_DEG
  return !stars.some(isRival)
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

/** The faintest V that a practised bare eye sees in a direction; -Infinity where the Sun forbids it (Crumey's eqs. 32 and 34). */
function limitOver(night: AlignmentNight, at: Date): (direction: Horizontal) => number {
  const conditions = conditionsOf(night)
  const place = placeOf(night.site)
  const [sun, moon] = [bodyLook('sun', at, place), bodyLook('moon', at, place)]
  return (direction) => {
    if (sunCause(direction, sun, false) !== null) return Number.NEGATIVE_INFINITY
    const backgroundCd = Math.max(BLACK_CD, skyCd(geometryOf(direction, sun, moon), conditions))
    const lostMag = lossMag(airmassPickering(direction.altitudeDeg), conditions)
    return magFromLux(pointLux(backgroundCd)) - 2.5 * Math.log10(OPERATOR_FACTOR) - lostMag
  }
}

const geometryOf = (direction: Horizontal, sun: BodyLook, moon: BodyLook): SkyGeometry => ({
  ...direction,
  sunAltitudeDeg: sun.altitudeDeg,
  sunSeparationDeg: apartDeg(direction, sun),
  moon:
    moon.altitudeDeg <= 0
      ? null
      : {
          altitudeDeg: moon.altitudeDeg,
          phaseAngleDeg: moon.phaseAngleDeg,
          distanceKm: moon.distanceAu * KM_PER_AU,
          separationDeg: apartDeg(direction, moon),
        },
})
