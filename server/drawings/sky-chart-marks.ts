import type { BodyKey } from '../sky/body.ts'
import type { Horizontal } from '../sky/horizontal.ts'
import type { Words } from '../words/words.ts'
import type { Edges } from './covering.ts'
import type { DrawnBody } from './sky-chart-bodies.ts'
import { CENTRE_X, CENTRE_Y, type Point, type SkyPaper } from './sky-chart-paper.ts'
import { boxAround, type ChartLabel, type Crowd, placeWords, stepsAround, stepsBeside } from './sky-chart-places.ts'
import { type Svg, svgElement } from './svg.ts'

/** One of tonight's targets under the number that the page's list gives it. */
export interface ChartTarget extends Horizontal {
  readonly number: number
  readonly name: string
  /** The Moon or the planet that it is; null for what stands among the stars. */
  readonly body: BodyKey | null
}

/** A target as it is drawn; `label` is null only where there was no room at all. */
export interface DrawnTarget {
  readonly number: number
  readonly x: number
  readonly y: number
  readonly radiusPx: number
  readonly label: ChartLabel | null
  /** True where another ring is so near that a line must tell whose number it is. */
  readonly isCrowded: boolean
}

const RING_PX = 9
const GAP_PX = 2
const AWAY_PX = [2, 7, 14, 24, 36, 50, 68, 90, 116, 150]
const STEP_COST = 0.03
const LEADER_PX = 16
/** The letters begin so far inside their box. */
const INTO_PX = 4
const CROWDED_PX = 44
const CROWDED_LEADER_PX = 2
const anywhere = (): boolean => true

/** Rings, numbers and the names of Moon and planets; a planet that is a target has its number before its name. */
export function markTargets(
  targets: readonly ChartTarget[],
  bodies: readonly DrawnBody[],
  paper: SkyPaper,
  crowd: Crowd,
  words: Words,
): { readonly targets: readonly DrawnTarget[]; readonly labels: readonly ChartLabel[] } {
  const marks = targets.map((target) => markOf(target, bodies, paper))
  const others = bodies.filter(({ body }) => !targets.some((target) => target.body === body))
  for (const { x, y, radiusPx } of [...marks, ...others]) crowd.taken.push(boxAround([x, y], radiusPx, radiusPx))
  const drawn = marks.map(({ target, body, ...mark }): DrawnTarget => {
    const number = words.number(target.number)
    const text = body ? words.say('sky-chart.numbered', { number, name: body.name }) : number
    const isCrowded = marks.some(
      (other) => other.target !== target && Math.hypot(other.x - mark.x, other.y - mark.y) < CROWDED_PX,
    )
    return { number: target.number, ...mark, label: wordsBeside(text, 'target', mark, crowd), isCrowded }
  })
  const names = others.flatMap((body) => wordsBeside(words.called(body.name), 'body', body, crowd) ?? [])
  return { targets: drawn, labels: [...drawn.flatMap(({ label }) => label ?? []), ...names] }
}

interface Mark {
  readonly target: ChartTarget
  readonly body: DrawnBody | undefined
  readonly x: number
  readonly y: number
  readonly radiusPx: number
}

function markOf(target: ChartTarget, bodies: readonly DrawnBody[], { place }: SkyPaper): Mark {
  const body = bodies.find((it) => it.body === target.body)
  const [x, y] = place(target.altitudeDeg, target.azimuthDeg)
  return { target, body, x, y, radiusPx: Math.max(RING_PX, body ? body.radiusPx + GAP_PX + 2 : 0) }
}

/** Words beside a mark or the Sun, as near as there is room. */
export const wordsBeside = (
  text: string,
  kind: ChartLabel['kind'],
  { x, y, radiusPx }: { readonly x: number; readonly y: number; readonly radiusPx: number },
  crowd: Crowd,
): ChartLabel | null =>
  placeWords(
    {
      text,
      kind,
      at: [x, y],
      steps: stepsBeside(radiusPx + GAP_PX, { text, kind }, AWAY_PX),
      costPx: STEP_COST,
      mostCost: Number.POSITIVE_INFINITY,
      mayStand: anywhere,
    },
    crowd,
  )

export const targetMark = ({ x, y, radiusPx, label, isCrowded }: DrawnTarget): Svg[] => [
  ...(label === null ? [] : leader([x, y], radiusPx, label, isCrowded ? CROWDED_LEADER_PX : LEADER_PX)),
  svgElement('circle', { cx: x, cy: y, r: radiusPx, fill: 'none', stroke: 'currentColor', 'stroke-width': 2 }),
]

/** A line from a ring to words that had to stand away from it. */
function leader([x, y]: Point, radiusPx: number, { box }: ChartLabel, leastPx: number): Svg[] {
  const endX = Math.min(box.right - INTO_PX, Math.max(box.left + INTO_PX, x))
  const endY = Math.min(box.bottom - INTO_PX, Math.max(box.top + INTO_PX, y))
  const longPx = Math.hypot(endX - x, endY - y)
  if (longPx < radiusPx + leastPx) return []
  const [startX, startY] = [x + ((endX - x) * radiusPx) / longPx, y + ((endY - y) * radiusPx) / longPx]
  const ends = { x1: startX, y1: startY, x2: endX, y2: endY }
  return [svgElement('line', { ...ends, stroke: 'currentColor', 'stroke-width': 1.5 })]
}

const CROSS_PX = 6
const OVERHEAD_RINGS_PX = [22, 34, 48, 64]

/** The point straight overhead and its word. */
export function overhead(crowd: Crowd, words: Words): ChartLabel | null {
  return placeWords(
    {
      text: words.say('sky-chart.overhead'),
      kind: 'overhead',
      at: [CENTRE_X, CENTRE_Y],
      steps: stepsAround(OVERHEAD_RINGS_PX),
      costPx: STEP_COST,
      mostCost: Number.POSITIVE_INFINITY,
      mayStand: anywhere,
    },
    crowd,
  )
}

/** What the cross in the middle covers. */
export const overheadBox = (): Edges => boxAround([CENTRE_X, CENTRE_Y], CROSS_PX, CROSS_PX)

export const overheadMark = (): Svg =>
  svgElement('path', {
    d: `M${CENTRE_X - CROSS_PX} ${CENTRE_Y}h${2 * CROSS_PX}M${CENTRE_X} ${CENTRE_Y - CROSS_PX}v${2 * CROSS_PX}`,
    fill: 'none',
    stroke: 'currentColor',
    'stroke-width': 1.5,
  })
