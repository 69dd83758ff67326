import { AIR_STEPS_PER_DEG, ARC_STEPS, airmassTable, altitudeTable, arcTable } from './pass-tables.ts'

/** The tables that stand in for arctangent, refraction and airmass in the whole-sky pass. */
interface PassTables {
  readonly arc: Float64Array
  readonly altitude: Float64Array
  readonly airmass: Float64Array
}

/** Where the pass writes: apparent altitude and azimuth in degrees, and airmass. */
export interface PassColumns {
  readonly altitudeDeg: Float64Array
  readonly azimuthDeg: Float64Array
  readonly airmass: Float64Array
}

let made: PassTables | undefined

/** The tables, made at the first pass; nobody writes into them. */
export function passTables(): PassTables {
  made ??= { arc: arcTable(), altitude: altitudeTable(), airmass: airmassTable() }
  return made
}

/** Keeps 0 / 0 out of the ratio of a thing exactly overhead. */
const TINY = 1e-300

/** A value between the pairs of a table; `along` is a step with its fraction, 0 or more. */
function fromTable(table: Float64Array, along: number): number {
  const step = along | 0
  return (table[2 * step] ?? 0) + (along - step) * (table[2 * step + 1] ?? 0)
}

/** The angle in degrees, 0 to 90, of a right triangle with these two sides (0 or more, not both 0). */
function arcDeg(arc: Float64Array, far: number, near: number): number {
  const isSteep = far > near
  const ratio = (isSteep ? near : far) / ((isSteep ? far : near) + TINY)
  return isSteep ? 90 - fromTable(arc, ratio * ARC_STEPS) : fromTable(arc, ratio * ARC_STEPS)
}

/**
 * Fills the columns from `first` on with all rows at one instant. `frame` is the rotation to north, west and zenith by rows
 * and then the observer's velocity, turned likewise, as a share of light's. Whole numbers are cut out with `| 0` and the
 * columns are taken out of the loop because that halves its time.
 */
export function fillSlot(
  vectors: Float64Array,
  frame: Float64Array,
  { arc, altitude, airmass }: PassTables,
  columns: PassColumns,
  first: number,
): void {
  const [nx = 0, ny = 0, nz = 0, wx = 0, wy = 0, wz = 0, ux = 0, uy = 0, uz = 0, vn = 0, vw = 0, vu = 0] = frame
  const { altitudeDeg, azimuthDeg, airmass: airmasses } = columns
  const horizonAirmass = airmass[0] ?? 1
  const end = vectors.length | 0
  for (let from = 0, to = first; from < end; from += 3, to++) {
    const x = vectors[from] ?? 0
    const y = vectors[from + 1] ?? 0
    const z = vectors[from + 2] ?? 0
    const north = nx * x + ny * y + nz * z + vn
    const west = wx * x + wy * y + wz * z + vw
    const up = ux * x + uy * y + uz * z + vu
    const fromMeridianDeg = arcDeg(arc, Math.abs(west), Math.abs(north))
    const fromNorthDeg = north < 0 ? 180 - fromMeridianDeg : fromMeridianDeg
    const heightDeg = arcDeg(arc, Math.abs(up), Math.sqrt(north * north + west * west))
    const seenDeg = fromTable(altitude, (90 + (up < 0 ? -heightDeg : heightDeg)) * AIR_STEPS_PER_DEG)
    altitudeDeg[to] = seenDeg
    airmasses[to] = seenDeg > 0 ? fromTable(airmass, seenDeg * AIR_STEPS_PER_DEG) : horizonAirmass
    azimuthDeg[to] = west > 0 ? 360 - fromNorthDeg : fromNorthDeg
  }
}

/** Numbers a frame of the ranking: zenith direction, velocity, and the velocity's share along the zenith. */
export const RANK_FRAME = 7

/**
 * Fills for every row the sine of its highest true altitude over all frames, and at how many frames that sine is `leastSine`
 * or more. Aberration goes in to first order, which errs 0.002".
 */
export function fillRanks(
  vectors: Float64Array,
  frames: Float64Array,
  leastSine: number,
  { maxSinAltitude, slotsAbove }: { readonly maxSinAltitude: Float32Array; readonly slotsAbove: Uint16Array },
): void {
  for (let row = 0; row < maxSinAltitude.length; row++) {
    const x = vectors[3 * row] ?? 0
    const y = vectors[3 * row + 1] ?? 0
    const z = vectors[3 * row + 2] ?? 0
    let best = -1
    let count = 0
    for (let at = 0; at < frames.length; at += RANK_FRAME) {
      const still = (frames[at] ?? 0) * x + (frames[at + 1] ?? 0) * y + (frames[at + 2] ?? 0) * z
      const ahead = (frames[at + 3] ?? 0) * x + (frames[at + 4] ?? 0) * y + (frames[at + 5] ?? 0) * z
      const sine = still + (frames[at + 6] ?? 0) - still * ahead
      if (sine > best) best = sine
      if (sine >= leastSine) count++
    }
    maxSinAltitude[row] = best
    slotsAbove[row] = count
  }
}
