import { wrap180 } from '../sky/angles.ts'
import type { WalkPoint } from '../tours/object-tonight.ts'

export const WIDTH = 720
export const HEIGHT = 340
export const LEFT = 44
export const FOOT = 34
export const LETTERS = { 'font-size': 14, fill: 'currentColor' }
const LEAST_WIDTH_DEG = 70
const EDGE_DEG = 14
const LEAST_TOP_DEG = 40

/** Azimuth to the right and altitude upward on the drawing of a walk, in degrees and in units of the picture. */
export interface Scale {
  readonly fromDeg: number
  readonly toDeg: number
  readonly topDeg: number
  /** Azimuths counted on through north, in the order of the walk. */
  readonly azimuths: ReadonlyMap<WalkPoint, number>
  readonly x: (azimuthDeg: number) => number
  readonly y: (altitudeDeg: number) => number
}

/** A scale that holds the whole walk and what stands below it. */
export function scaleOf(up: readonly WalkPoint[]): Scale {
  const azimuths = new Map<WalkPoint, number>()
  let azimuth = up[0]?.azimuthDeg ?? 0
  for (const point of up) {
    azimuth += wrap180(point.azimuthDeg - azimuth)
    azimuths.set(point, azimuth)
  }
  const all = [...azimuths.values()]
  const [least, most] = [Math.min(...all) - EDGE_DEG, Math.max(...all) + EDGE_DEG]
  const missing = Math.max(0, LEAST_WIDTH_DEG - (most - least)) / 2
  const [fromDeg, toDeg] = [least - missing, most + missing]
  const highest = Math.max(...up.map(({ altitudeDeg, skylineDeg }) => Math.max(altitudeDeg, skylineDeg)))
  const topDeg = Math.min(90, Math.max(LEAST_TOP_DEG, Math.ceil((highest + 6) / 10) * 10))
  return {
    fromDeg,
    toDeg,
    topDeg,
    azimuths,
    x: (azimuthDeg) => LEFT + ((WIDTH - LEFT) * (azimuthDeg - fromDeg)) / (toDeg - fromDeg),
    y: (altitudeDeg) => (HEIGHT - FOOT) * (1 - Math.max(0, altitudeDeg) / topDeg),
  }
}
