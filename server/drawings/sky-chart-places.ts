import { coverCost, type Edges, type Obstacle, obstaclesAlong, overlaps } from './covering.ts'
import { lineEm } from './letter-widths.ts'
import { LETTER_PX } from './sky-chart-letters.ts'
import { CENTRE_X, CENTRE_Y, type Point, RADIUS } from './sky-chart-paper.ts'
import type { DrawnStar, DrawnStroke } from './sky-chart-stars.ts'

/** Words as they stand: their middle, the line on which the letters stand, and their edges. */
export interface ChartLabel {
  readonly text: string
  readonly kind: 'target' | 'body' | 'overhead' | 'constellation'
  readonly x: number
  readonly y: number
  readonly box: Edges
}

/** True for the words that are set bold. */
export const isBold = (kind: ChartLabel['kind']): boolean => kind === 'target' || kind === 'body'

export interface Crowd {
  readonly obstacles: readonly Obstacle[]
  /** What no words may touch: marks, and the words that stand already. */
  readonly taken: Edges[]
}

const HALF_HEIGHT_PX = 13
const BASE_PX = 0.36 * LETTER_PX
const SIDE_PX = 3
const ALONG_LINE = { stepPx: 14, radiusPx: 2, weight: 0.35 }

export const boxAround = ([x, y]: Point, halfWidth: number, halfHeight: number): Edges => ({
  left: x - halfWidth,
  right: x + halfWidth,
  top: y - halfHeight,
  bottom: y + halfHeight,
})

export function crowdOf(stars: readonly DrawnStar[], strokes: readonly DrawnStroke[]): Crowd {
  const dots = stars.map(({ x, y, radiusPx }) => ({
    x,
    y,
    radiusPx: radiusPx + 2,
    weight: Math.max(0.6, radiusPx / 2),
  }))
  return { obstacles: [...dots, ...strokes.flatMap(({ from, to }) => obstaclesAlong(from, to, ALONG_LINE))], taken: [] }
}

interface Wish {
  readonly text: string
  readonly kind: ChartLabel['kind']
  readonly at: Point
  /** Places for the middle of the words, as steps from `at`. */
  readonly steps: readonly Point[]
  /** What a step away costs, beside the stars that are covered. */
  readonly costPx: number
  /** Costs beyond it are not paid: the words are left out. */
  readonly mostCost: number
  /** False where the words must not stand. */
  readonly mayStand: (box: Edges) => boolean
}

/** Puts words where they cover least, and keeps that place; null where every place is taken or too dear. */
export function placeWords(wish: Wish, { obstacles, taken }: Crowd): ChartLabel | null {
  const halfWidth = halfWidthPx(wish)
  const reach = Math.max(...wish.steps.map(([right, down]) => Math.hypot(right, down))) + halfWidth + 20
  const near = obstacles.filter(({ x, y }) => Math.abs(x - wish.at[0]) < reach && Math.abs(y - wish.at[1]) < reach)
  let best: { readonly middle: Point; readonly box: Edges; readonly cost: number } | null = null
  for (const [right, down] of wish.steps) {
    const stepCost = wish.costPx * Math.hypot(right, down)
    if (best !== null && stepCost >= best.cost) continue
    const middle: Point = [wish.at[0] + right, wish.at[1] + down]
    const box = boxAround(middle, halfWidth, HALF_HEIGHT_PX)
    if (!isOnDisc(box) || taken.some((other) => overlaps(box, other))) continue
    const cost = stepCost + coverCost(box, near)
    if (cost > wish.mostCost || (best !== null && cost >= best.cost) || !wish.mayStand(box)) continue
    best = { middle, box, cost }
  }
  if (best === null) return null
  taken.push(best.box)
  return { text: wish.text, kind: wish.kind, x: best.middle[0], y: best.middle[1] + BASE_PX, box: best.box }
}

export const cornersOf = ({ left, right, top, bottom }: Edges): readonly Point[] => [
  [left, top],
  [right, top],
  [left, bottom],
  [right, bottom],
]

const isOnDisc = (box: Edges): boolean =>
  cornersOf(box).every(([x, y]) => Math.hypot(x - CENTRE_X, y - CENTRE_Y) <= RADIUS - 2)

const halfWidthPx = ({ text, kind }: Pick<Wish, 'text' | 'kind'>): number =>
  (LETTER_PX * lineEm(text, isBold(kind))) / 2 + SIDE_PX

/** Steps right beside a mark, then farther and farther around it, for words of a width. */
export function stepsBeside(gapPx: number, words: Pick<Wish, 'text' | 'kind'>, awayPx: readonly number[]): Point[] {
  const halfWidth = halfWidthPx(words)
  return awayPx.flatMap((away) =>
    Array.from({ length: 16 }, (_, way): Point => {
      const [right, down] = [Math.cos((way * Math.PI) / 8), Math.sin((way * Math.PI) / 8)]
      const [x, y] = [right * (gapPx + away), down * (gapPx + away)]
      return [x + clampTo(right * 2.2) * halfWidth, y + clampTo(down * 1.5) * HALF_HEIGHT_PX]
    }),
  )
}

const clampTo = (value: number): number => Math.min(1, Math.max(-1, value))

/** Steps in rings around a middle. */
export const stepsAround = (radiiPx: readonly number[]): Point[] => [
  [0, 0],
  ...radiiPx.flatMap((radiusPx) =>
    Array.from({ length: 12 }, (_, way): Point => {
      return [radiusPx * Math.cos((way * Math.PI) / 6), radiusPx * Math.sin((way * Math.PI) / 6)]
    }),
  ),
]
