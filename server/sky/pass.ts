import { radians } from './angles.ts'
import { earthMotion, groundMotion, instantOf, rotationToHorizon } from './engine.ts'
import { fillRanks, fillSlot, type PassColumns, passTables, RANK_FRAME } from './pass-kernel.ts'
import type { Place } from './place.ts'
import { trueAltitudeDeg } from './refraction.ts'
import { type StarPlace, starVector } from './star.ts'
import { dot, plus, type Rotation, turn, type Vector } from './vectors.ts'

/**
 * Where every row stands at every instant, instant-major: row n at instant t is at t times the rows plus n. Altitudes are
 * refracted; the airmass is Pickering's, 1 to 38.75, and the horizon's value below it.
 */
export type SkyPass = PassColumns

/** How well every row stands over all instants. */
export interface RankPass {
  /** Sine of the highest true altitude. */
  readonly maxSinAltitude: Float32Array
  /** At how many instants the row is seen at the least altitude or above. */
  readonly slotsAbove: Uint16Array
}

/** Directions at an instant as unit vectors in the ICRS, three numbers a row; proper motion and parallax applied. */
export function starVectors(stars: readonly StarPlace[], epochAt: Date): Float64Array {
  const earthAu = earthMotion(instantOf(epochAt)).placeAu
  const vectors = new Float64Array(3 * stars.length)
  stars.forEach((star, index) => {
    vectors.set(starVector(star, epochAt, earthAu), 3 * index)
  })
  return vectors
}

/** The turn from the ICRS to north, west and zenith at an instant, and the observer's velocity as a share of light's. */
function frameOf(at: Date, place: Place): { rotation: Rotation; velocityC: Vector } {
  const instant = instantOf(at)
  return {
    rotation: rotationToHorizon(instant, place),
    velocityC: plus(earthMotion(instant).velocityC, groundMotion(instant, place).velocityC),
  }
}

/**
 * Apparent altitude, azimuth and airmass of ALL rows at all instants, below the horizon too. Precession, nutation and annual
 * and diurnal aberration of each instant are in it: farther than 10 degrees from the Sun it errs less than 1".
 */
export function skyPass(vectors: Float64Array, instants: readonly Date[], place: Place): SkyPass {
  const rows = vectors.length / 3
  const size = rows * instants.length
  const pass: SkyPass = {
    altitudeDeg: new Float64Array(size),
    azimuthDeg: new Float64Array(size),
    airmass: new Float64Array(size),
  }
  const tables = passTables()
  instants.forEach((at, slot) => {
    const { rotation, velocityC } = frameOf(at, place)
    fillSlot(vectors, Float64Array.of(...rotation.flat(), ...turn(rotation, velocityC)), tables, pass, slot * rows)
  })
  return pass
}

/**
 * How well every row stands over all instants, without the table of all places: for choosing among many. A row counts at an
 * instant when it is SEEN (refracted) at `minAltitudeDeg` or above.
 */
export function rankPass(
  vectors: Float64Array,
  instants: readonly Date[],
  place: Place,
  minAltitudeDeg: number,
): RankPass {
  const rows = vectors.length / 3
  const ranks: RankPass = { maxSinAltitude: new Float32Array(rows), slotsAbove: new Uint16Array(rows) }
  const frames = new Float64Array(RANK_FRAME * instants.length)
  instants.forEach((at, slot) => {
    const { rotation, velocityC } = frameOf(at, place)
    const zenith = rotation[2]
    frames.set([...zenith, ...velocityC, dot(zenith, velocityC)], RANK_FRAME * slot)
  })
  fillRanks(vectors, frames, Math.sin(radians(trueAltitudeDeg(minAltitudeDeg))), ranks)
  return ranks
}
