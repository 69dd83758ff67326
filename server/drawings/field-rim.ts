import { clamp, radians } from '../sky/angles.ts'
import { fieldText, textPx } from './field-letters.ts'
import { LETTER_PX } from './field-paper.ts'
import { pointsText, type Svg, svgElement } from './svg.ts'

/** A circle on the paper, what is kept free around it, and how far the part in which it stands reaches to its left and right. */
interface Rim {
  readonly x: number
  readonly y: number
  readonly radiusPx: number
  readonly roomPx: number
  readonly sidePx: number
}

/** An arrow outside the rim: degrees clockwise from up, its word, and whether it is the bold one. */
interface RimArrow {
  readonly clockwiseDeg: number
  readonly word: string
  readonly isBold: boolean
}

interface Box {
  readonly left: number
  readonly right: number
  readonly top: number
  readonly bottom: number
}

const [FROM_PX, HEAD_PX] = [5, 12]
const tipPx = ({ roomPx }: Rim): number => roomPx - 4

/** The one thin circle of a field, and arrows outside it with their words. */
export function rimWith(rim: Rim, arrows: readonly RimArrow[]): Svg[] {
  const { x, y, radiusPx } = rim
  const circle = svgElement('circle', {
    cx: x,
    cy: y,
    r: radiusPx,
    fill: 'none',
    stroke: 'currentColor',
    'stroke-width': 1.2,
  })
  const taken = arrows.map((arrow) => arrowBox(rim, arrow))
  const words = arrows.map((arrow) => {
    const box = wordBox(rim, arrow, taken)
    taken.push(box)
    return fieldText((box.left + box.right) / 2, box.bottom - 5, arrow.word, 'middle', arrow.isBold ? BOLD : {})
  })
  return [circle, ...arrows.flatMap((arrow) => arrowSvg(rim, arrow)), ...words]
}

const BOLD = { 'font-weight': 700 }

/** A place so far outside the rim and so far to the right of the direction outward. */
function outside({ x, y, radiusPx }: Rim, { clockwiseDeg }: RimArrow, out: number, side = 0): [number, number] {
  const [sine, cosine] = [Math.sin(radians(clockwiseDeg)), Math.cos(radians(clockwiseDeg))]
  return [x + (radiusPx + out) * sine + side * cosine, y - (radiusPx + out) * cosine + side * sine]
}

function arrowSvg(rim: Rim, arrow: RimArrow): Svg[] {
  const [[x1, y1], [x2, y2]] = [outside(rim, arrow, FROM_PX), outside(rim, arrow, tipPx(rim) - HEAD_PX)]
  const half = arrow.isBold ? 8 : 5.5
  const head = [
    outside(rim, arrow, tipPx(rim)),
    outside(rim, arrow, tipPx(rim) - HEAD_PX, half),
    outside(rim, arrow, tipPx(rim) - HEAD_PX, -half),
  ]
  return [
    svgElement('line', { x1, y1, x2, y2, stroke: 'currentColor', 'stroke-width': arrow.isBold ? 4 : 1.6 }),
    svgElement('polygon', { points: pointsText(head), fill: 'currentColor' }),
  ]
}

function arrowBox(rim: Rim, arrow: RimArrow): Box {
  const ends = [FROM_PX, tipPx(rim)].flatMap((out) => [8, -8].map((side) => outside(rim, arrow, out, side)))
  const [xs, ys] = [ends.map(([x]) => x), ends.map(([, y]) => y)]
  return { left: Math.min(...xs), right: Math.max(...xs), top: Math.min(...ys), bottom: Math.max(...ys) }
}

const STEPS = Array.from({ length: 25 }, (_, i) => i - 12)
const STEP_PX = 9

/** The place on the paper for a word that is nearest to its arrow and touches neither the circle nor anything placed before. */
function wordBox(rim: Rim, arrow: RimArrow, taken: readonly Box[]): Box {
  const { x, y, radiusPx, roomPx, sidePx } = rim
  const [midX, midY] = outside(rim, arrow, (FROM_PX + tipPx(rim)) / 2)
  const half = textPx(arrow.word) / 2 + (arrow.isBold ? 5 : 2)
  const [farX, farY] = [sidePx - half, radiusPx + roomPx - LETTER_PX / 2]
  const at = (dx: number, dy: number): Box =>
    boxAt(clamp(midX + dx, x - farX, x + farX), clamp(midY + dy, y - farY, y + farY), half)
  const boxes = STEPS.flatMap((i) => STEPS.map((j) => at(i * STEP_PX, j * STEP_PX)))
  const far = (box: Box): number =>
    Math.hypot((box.left + box.right) / 2 - midX, 1.5 * ((box.top + box.bottom) / 2 - midY))
  const [best] = boxes.filter((box) => isFree(rim, box, taken)).toSorted((one, other) => far(one) - far(other))
  return best ?? at(0, 0)
}

const boxAt = (x: number, y: number, half: number): Box => ({
  left: x - half,
  right: x + half,
  top: y - LETTER_PX / 2,
  bottom: y + LETTER_PX / 2,
})

const AIR_PX = 2

function isFree({ x, y, radiusPx }: Rim, box: Box, taken: readonly Box[]): boolean {
  const nearX = clamp(x, box.left, box.right)
  const nearY = clamp(y, box.top, box.bottom)
  return (
    Math.hypot(nearX - x, nearY - y) >= radiusPx + AIR_PX &&
    taken.every((it) => box.right <= it.left || box.left >= it.right || box.bottom <= it.top || box.top >= it.bottom)
  )
}
