import type { Site } from '../tours/site.ts'
import { skylineAt } from '../tours/skyline.ts'
import { pointsText, type Svg, svgElement, svgText } from './svg.ts'
import { FOOT, HEIGHT, LEFT, LETTERS, type Scale, WIDTH } from './walk-scale.ts'

const LETTER_WIDTH = 7.5 // of LETTERS, on the wide side

/** Trees and roofs as a shape along the foot of the drawing, with their names. */
export function skylineOf(horizon: Site['horizon'], scale: Scale): Svg[] {
  const { fromDeg, toDeg, topDeg, x, y } = scale
  const count = Math.ceil(toDeg - fromDeg)
  const tops = Array.from({ length: count + 1 }, (_, k): [number, number] => {
    const azimuth = fromDeg + ((toDeg - fromDeg) * k) / count
    return [x(azimuth), y(Math.min(topDeg, skylineAt(horizon, azimuth).altitudeDeg))]
  })
  const ground = svgElement('polygon', {
    points: pointsText([[LEFT, y(0)], ...tops, [WIDTH, y(0)]]),
    fill: 'currentColor',
    'fill-opacity': 0.18,
    stroke: 'currentColor',
    'stroke-width': 1,
  })
  return [ground, ...namesOnSkyline(horizon, scale)]
}

const LEAST_NAMED_DEG = 4

/** What stands there, each once where it is named over neighbouring compass points, in the middle of its visible width. */
function namesOnSkyline(horizon: Site['horizon'], { fromDeg, toDeg, x }: Scale): Svg[] {
  const spans: { name: string; from: number; to: number }[] = []
  for (let azimuth = fromDeg; azimuth <= toDeg; azimuth += 1) {
    const { name, altitudeDeg } = skylineAt(horizon, azimuth)
    const last = spans.at(-1)
    if (name === '' || altitudeDeg < LEAST_NAMED_DEG) continue
    if (last?.name === name && azimuth - last.to < 1.5) last.to = azimuth
    else spans.push({ name, from: azimuth, to: azimuth })
  }
  return spans.flatMap(({ name, from, to }) => {
    const room = x(to) - x(from)
    if (room < name.length * LETTER_WIDTH) return []
    const place = { x: x((from + to) / 2), y: HEIGHT - FOOT - 7, 'text-anchor': 'middle', ...LETTERS }
    return [svgElement('text', place, svgText(name))]
  })
}
