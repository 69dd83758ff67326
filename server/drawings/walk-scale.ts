import { wrap180 } from '../sky/angles.ts'
import type { WalkPoint } from '../tours/walks.ts'

/** How a walk is printed, in millimetres but for the letters. */
export interface WalkPaper {
  readonly widthMm: number
  /** From the top to the level ground. */
  readonly groundMm: number
  /** Room for numbers at the left, and for words over the highest line. */
  readonly leftMm: number
  readonly headMm: number
  readonly sizePt: number
}

export const WALK_PAPER: WalkPaper = { widthMm: 180, groundMm: 76, leftMm: 9, headMm: 7, sizePt: 14 }
/** As wide as its letters can be read on a phone that shows all of it. */
export const WALK_NARROW: WalkPaper = { widthMm: 100, groundMm: 62, leftMm: 7, headMm: 6, sizePt: 12 }

const LEAST_WIDTH_DEG = 70
const EDGE_DEG = 14
const LEAST_TOP_DEG = 40

/** Azimuth to the right and altitude upward on the drawing of a walk, in degrees and in millimetres. */
export interface Scale {
  readonly paper: WalkPaper
  readonly fromDeg: number
  readonly toDeg: number
  readonly topDeg: number
  /** Azimuths counted on through north, in the order of the walk. */
  readonly azimuths: ReadonlyMap<WalkPoint, number>
  readonly x: (azimuthDeg: number) => number
  readonly y: (altitudeDeg: number) => number
}

/** A scale that holds the whole walk and what stands below it. */
export function scaleOf(up: readonly WalkPoint[], paper: WalkPaper): Scale {
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
  const { leftMm, widthMm, groundMm, headMm } = paper
  return {
    paper,
    fromDeg,
    toDeg,
    topDeg,
    azimuths,
    x: (azimuthDeg) => leftMm + ((widthMm - leftMm) * (azimuthDeg - fromDeg)) / (toDeg - fromDeg),
    y: (altitudeDeg) => groundMm - ((groundMm - headMm) * Math.max(0, altitudeDeg)) / topDeg,
  }
}
