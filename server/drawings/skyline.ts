import type { Site } from '../tours/site.ts'
import { skylineAt } from '../tours/skyline.ts'
import { pointsText, type Svg, svgElement } from './svg.ts'
import type { Scale } from './walk-scale.ts'
import { type Box, boxAt, lineMm, overlaps, textIn, widthMm } from './word-box.ts'

const HATCH_MM = 2.2

/** Trees and roofs as a shape along the foot of the drawing, filled with upright strokes. */
export function skylineOf(horizon: Site['horizon'], scale: Scale): Svg[] {
  const { fromDeg, toDeg, topDeg, x, y, paper } = scale
  const degPerMm = (toDeg - fromDeg) / (paper.widthMm - paper.leftMm)
  const topAt = (azimuth: number): number => y(Math.min(topDeg, skylineAt(horizon, azimuth).altitudeDeg))
  const count = Math.ceil(toDeg - fromDeg)
  const tops = Array.from({ length: count + 1 }, (_, k): [number, number] => {
    const azimuth = fromDeg + ((toDeg - fromDeg) * k) / count
    return [x(azimuth), topAt(azimuth)]
  })
  const strokes = Array.from({ length: Math.floor((paper.widthMm - paper.leftMm) / HATCH_MM) }, (_, k) => {
    const at = paper.leftMm + (k + 0.5) * HATCH_MM
    const top = topAt(fromDeg + (at - paper.leftMm) * degPerMm)
    return `M${at.toFixed(1)} ${y(0).toFixed(1)}V${top.toFixed(1)}`
  })
  const ink = { fill: 'none', stroke: 'currentColor' }
  return [
    svgElement('path', { d: strokes.join(''), ...ink, 'stroke-width': 0.2 }),
    svgElement('polyline', { points: pointsText(tops), ...ink, 'stroke-width': 0.5 }),
    svgElement('line', { x1: paper.leftMm, x2: paper.widthMm, y1: y(0), y2: y(0), ...ink, 'stroke-width': 0.5 }),
  ]
}

/** What stands there, with its name inside its shape or, where that has no room, beneath the ground with a line to its middle. */
export interface NamedThing {
  readonly name: string
  readonly x: number
  readonly box: Box
  readonly isInside: boolean
}

const LEAST_NAMED_DEG = 4
const INSIDE_AIR_MM = 0.6
const LANES_MOST = 12

/** The names along the skyline; none covers another or anything in `taken`, and no point of the walk runs through them. */
export function namesOnSkyline(
  horizon: Site['horizon'],
  scale: Scale,
  taken: readonly Box[],
  way: readonly (readonly [number, number])[],
): readonly NamedThing[] {
  const { sizePt, widthMm: most, leftMm } = scale.paper
  const placed: NamedThing[] = []
  for (const { name, from, to } of spansOf(horizon, scale)) {
    const text = textIn(name, most - leftMm, sizePt)
    const middle = (scale.x(from) + scale.x(to)) / 2
    const x1 = Math.min(Math.max(leftMm, middle - widthMm(text) / 2), most - widthMm(text))
    const others = [...taken, ...placed.map(({ box }) => box)]
    const inside = boxAt(text, x1, scale.y(0) - lineMm(sizePt) * text.lines.length - INSIDE_AIR_MM)
    const isInside =
      hasRoom(inside, horizon, scale, from, to) &&
      others.every((other) => !overlaps(inside, other)) &&
      way.every(([x, y]) => x < inside.x1 || x > inside.x2 || y < inside.y1 || y > inside.y2)
    const lanes = Array.from({ length: LANES_MOST }, (_, k) => boxAt(text, x1, scale.y(0) + 1 + k * lineMm(sizePt)))
    const box = isInside ? inside : lanes.find((lane) => others.every((other) => !overlaps(lane, other, 0.5)))
    if (box) placed.push({ name, x: Math.min(Math.max(middle, box.x1), box.x2), box, isInside })
  }
  return placed
}

function hasRoom(
  box: Box,
  horizon: Site['horizon'],
  { x, y, fromDeg, toDeg }: Scale,
  from: number,
  to: number,
): boolean {
  if (box.x1 < x(from) || box.x2 > x(to)) return false
  const degPerMm = (toDeg - fromDeg) / (x(toDeg) - x(fromDeg))
  return [box.x1, (box.x1 + box.x2) / 2, box.x2].every(
    (at) => y(skylineAt(horizon, fromDeg + (at - x(fromDeg)) * degPerMm).altitudeDeg) < box.y1,
  )
}

/** Each thing once where it is named over neighbouring compass points. */
function spansOf(horizon: Site['horizon'], { fromDeg, toDeg }: Scale): { name: string; from: number; to: number }[] {
  const spans: { name: string; from: number; to: number }[] = []
  for (let azimuth = fromDeg; azimuth <= toDeg; azimuth += 1) {
    const { name, altitudeDeg } = skylineAt(horizon, azimuth)
    const last = spans.at(-1)
    if (name === '' || altitudeDeg < LEAST_NAMED_DEG) continue
    if (last?.name === name && azimuth - last.to < 1.5) last.to = azimuth
    else spans.push({ name, from: azimuth, to: azimuth })
  }
  return spans
}
