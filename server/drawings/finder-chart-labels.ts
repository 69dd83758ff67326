import { clamp } from '../sky/angles.ts'
import { coverCost, type Edges, type Obstacle, overlaps } from './covering.ts'
import { LETTERS, LINE_PX, MAP, type Point } from './finder-chart-scale.ts'
import { lineEm, linesOf } from './letter-widths.ts'

/** Where a few lines of words stand on paper: their outer edges. */
export interface LabelBox extends Edges {
  readonly text: readonly string[]
}

const LONGEST_LINE_EM = 9
const WAYS = 24
const AWAY_PX = [5, 12, 22, 36, 54, 76, 104, 140] as const
const EDGE_PX = 4
const RIGHT_PX = MAP.left + MAP.width
const ROUNDING_PX = 1e-6
/** Names so near to each other read as one. */
const CROWD_PX = 9
const CROWD_WEIGHT = 2

/** What a name belongs to: how far away it stands at least, and how much of a covered star each step farther away counts. */
export interface Anchor extends Point {
  readonly gapPx: number
  readonly awayWeight: number
}

/** A name in lines short enough to stand beside a star. */
export const nameLines = (name: string): readonly string[] => linesOf(name, LONGEST_LINE_EM)

/** The place around a point, `gapPx` away at least, where words cover least; null where they would hide another's. */
export function placeLabel(
  text: readonly string[],
  anchor: Anchor,
  obstacles: readonly Obstacle[],
  taken: readonly LabelBox[],
  heightPx: number,
): LabelBox | null {
  let best: { box: LabelBox; cost: number } | null = null
  for (const awayPx of AWAY_PX)
    for (let way = 0; way < WAYS; way++) {
      const box = boxBeside(text, anchor, awayPx + anchor.gapPx, (way * 2 * Math.PI) / WAYS)
      if (!isInside(box, heightPx) || taken.some((other) => overlaps(box, other))) continue
      const crowd = taken.filter((other) => overlaps(box, other, CROWD_PX)).length
      const cost = anchor.awayWeight * awayPx + coverCost(box, obstacles) + CROWD_WEIGHT * crowd
      if (best === null || cost < best.cost) best = { box, cost }
    }
  return best?.box ?? null
}

/** Words whose nearest edge is so far away from a point in a direction. */
function boxBeside(text: readonly string[], { x, y }: Point, awayPx: number, turn: number): LabelBox {
  const halfWidth = (LETTERS['font-size'] * Math.max(...text.map((line) => lineEm(line)))) / 2
  const halfHeight = (LINE_PX * text.length) / 2
  const [right, down] = [Math.cos(turn), Math.sin(turn)]
  const isAside = Math.abs(right) > Math.abs(down)
  const aimedX = x + right * awayPx + Math.sign(Math.round(right * 4)) * halfWidth
  const middleX = isAside ? aimedX : clamp(aimedX, MAP.left + EDGE_PX + halfWidth, RIGHT_PX - EDGE_PX - halfWidth)
  const middleY = y + down * awayPx + Math.sign(Math.round(down * 1.4)) * halfHeight
  return {
    text,
    left: middleX - halfWidth,
    right: middleX + halfWidth,
    top: middleY - halfHeight,
    bottom: middleY + halfHeight,
  }
}

const isInside = ({ left, right, top, bottom }: LabelBox, heightPx: number): boolean =>
  left >= MAP.left + EDGE_PX - ROUNDING_PX &&
  right <= RIGHT_PX - EDGE_PX + ROUNDING_PX &&
  top >= MAP.top + EDGE_PX &&
  bottom <= MAP.top + heightPx - EDGE_PX
