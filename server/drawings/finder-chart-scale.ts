import type { Horizontal } from '../sky/horizontal.ts'
import type { Frame, Way } from '../tours/hops.ts'

/** Width of the picture in its own units; printed 84 mm wide, five of them are a millimetre. */
export const WIDTH = 420
/** 12 points at 84 mm. */
export const LETTERS = { 'font-size': 22, fill: 'currentColor' }
export const LINE_PX = 25

export const MAP = { left: 22, top: 56, width: 376 } as const
/** Below the map: the hour at its foot and a measure, or the measure alone where the height is given. */
export const FOOT_PX = { whole: 70, low: 30 } as const
const LOWEST_PX = 240
const EDGE_DEG = 1
const LEAST_FIELDS = 2.2
const EYES_DEG = 30

export interface Point {
  readonly x: number
  readonly y: number
}

/** The flat sky on paper. */
export interface ChartScale {
  readonly heightPx: number
  readonly pxPerDeg: number
  readonly place: (direction: Horizontal) => Point
  /** Half of the width on paper of a round field at a direction. */
  readonly radiusPx: (direction: Horizontal, widthDeg: number) => number
}

interface Shown {
  readonly way: Exclude<Way, { readonly kind: 'none' }>
  readonly target: Horizontal
  readonly finderFieldDeg: number
  /** How high the map is; null for as high as the way needs. */
  readonly mapHeightPx: number | null
}

/** A scale that holds the whole way and the finder's field around the target. */
export function scaleOf({ way, target, finderFieldDeg, mapHeightPx }: Shown): ChartScale {
  const { frame } = way
  const box = boxOf(way, frame, target, way.kind === 'hops' ? finderFieldDeg / 2 : EYES_DEG / 2)
  const leastDeg = LEAST_FIELDS * finderFieldDeg
  const [wideDeg, highDeg] = [Math.max(leastDeg, box.wideDeg), box.highDeg]
  const pxPerDeg = Math.min(MAP.width / wideDeg, (mapHeightPx ?? MAP.width) / highDeg)
  const heightPx = mapHeightPx ?? Math.max(LOWEST_PX, highDeg * pxPerDeg)
  return {
    heightPx,
    pxPerDeg,
    place(direction) {
      const { rightDeg, upDeg } = frame.flat(direction)
      return {
        x: MAP.left + MAP.width / 2 + (rightDeg - box.rightDeg) * pxPerDeg,
        y: MAP.top + heightPx / 2 - (upDeg - box.upDeg) * pxPerDeg,
      }
    },
    radiusPx: (direction, widthDeg) => (widthDeg / 2) * frame.stretch(direction) * pxPerDeg,
  }
}

/** Middle, width and height of what must be seen, in degrees of the frame. */
function boxOf(way: Shown['way'], frame: Frame, target: Horizontal, roomDeg: number) {
  const stars = way.kind === 'hops' ? way.hops.map(({ from }) => frame.flat(from.direction)) : []
  const { rightDeg, upDeg } = frame.flat(target)
  const rights = [rightDeg - roomDeg, rightDeg + roomDeg, ...stars.map((star) => star.rightDeg)]
  const ups = [upDeg - roomDeg, upDeg + roomDeg, ...stars.map((star) => star.upDeg)]
  const [left, right, low, high] = [Math.min(...rights), Math.max(...rights), Math.min(...ups), Math.max(...ups)]
  return {
    rightDeg: (left + right) / 2,
    upDeg: (low + high) / 2,
    wideDeg: right - left + 2 * EDGE_DEG,
    highDeg: high - low + 2 * EDGE_DEG,
  }
}
