import type { LitFeature, MoonFeature } from '../sight/moon-features.ts'
import { degrees, radians } from '../sky/angles.ts'
import { limbOf, onGlobe, terminatorOf } from './field-globe.ts'
import { fieldText, OVER_DOTS } from './field-letters.ts'
import type { MoonScene } from './field-moon.ts'
import { onMoon } from './field-moon-map.ts'
import { type DrawnMark, drawnField, type FieldDrawn, type FieldPaper, isInCircle } from './field-paper.ts'
import { pointsText, type Svg, svgElement } from './svg.ts'
import { MOON_RADIUS_KM } from './thing-moon.ts'

const CIRCLE = Array.from({ length: 25 }, (_, i) => radians(15 * i))

const LEAST_RING_PX = 2.2

/** Every lit crater as wide as it is, a dot for what else is named, and a number beside each that is. */
export function drawFeatures(paper: FieldPaper, scene: MoonScene): FieldDrawn {
  const { face, globe, named, craters } = scene
  const marks = named.map(({ name, longitudeDeg, latitudeDeg }, i): DrawnMark => {
    const { north, east } = onMoon(face, longitudeDeg, latitudeDeg)
    const [x, y] = onGlobe(paper, globe, face.axisAngleDeg, north, east)
    return { name, sign: String(i + 1), x, y }
  })
  const wide = craters.filter(({ diameterKm }) => halfPx(paper, scene, diameterKm) >= LEAST_RING_PX)
  const rings = wide.map((crater) => ringOf(paper, scene, crater))
  const dots = named
    .filter((feature) => !wide.some(({ name }) => name === feature.name))
    .map((feature) => dotAt(marks, feature))
  return drawnField([...rings, ...dots, ...numbers(paper, scene, marks)], { marks })
}

const halfPx = (paper: FieldPaper, { globe }: MoonScene, diameterKm: number): number =>
  (diameterKm / 2 / MOON_RADIUS_KM) * globe.radiusArcmin * paper.pxPerArcmin

/** A crater's rim as wide and as foreshortened as it is. */
function ringOf(paper: FieldPaper, { face, globe }: MoonScene, crater: MoonFeature): Svg {
  const half = degrees(crater.diameterKm / 2 / MOON_RADIUS_KM)
  const points = CIRCLE.map((t) => {
    const lat = crater.latitudeDeg + half * Math.cos(t)
    const lon = crater.longitudeDeg + (half * Math.sin(t)) / Math.cos(radians(crater.latitudeDeg))
    const { north, east } = onMoon(face, lon, lat)
    return onGlobe(paper, globe, face.axisAngleDeg, north, east)
  })
  const ink = { fill: 'white', stroke: 'currentColor', 'stroke-width': 1.3 }
  return svgElement('polygon', { points: pointsText(points), ...ink })
}

function dotAt(marks: readonly DrawnMark[], { name }: LitFeature): Svg {
  const { x, y } = marks.find((mark) => mark.name === name) ?? { x: 0, y: 0 }
  return svgElement('circle', { cx: x, cy: y, r: 2.6, fill: 'currentColor' })
}

const AWAY_PX = [30, 44] as const
const TURNS = Array.from({ length: 12 }, (_, i) => radians(30 * i))
const ROOM_PX = 22
const LINE_ROOM_PX = 14

/** A number beside each mark with a line to it, as far from every other mark and number as there is room. */
function numbers(paper: FieldPaper, { globe }: MoonScene, marks: readonly DrawnMark[]): Svg[] {
  const lines = [...limbOf(paper, globe, 'lit'), ...terminatorOf(paper, globe)]
  const taken: [number, number][] = marks.map(({ x, y }) => [x, y])
  return marks.flatMap(({ x, y, sign }) => {
    const tried = AWAY_PX.flatMap((px) =>
      TURNS.map((t): [number, number] => [x + px * Math.sin(t), y - px * Math.cos(t)]),
    )
    const inside = tried.filter(([px, py]) => isInCircle(paper, px, py, 14))
    const offLine = ([px, py]: [number, number]): number =>
      Math.min(LINE_ROOM_PX, ...lines.map(([lx, ly]) => Math.hypot(lx - px, ly - py)))
    const room = ([px, py]: [number, number]): number =>
      Math.min(
        3 * ROOM_PX,
        ...taken.map(([tx, ty]) => (tx === x && ty === y ? 3 * ROOM_PX : Math.hypot(tx - px, ty - py))),
      )
    const [best = tried[0] ?? [x, y]] = inside.toSorted(
      (one, other) => room(other) + offLine(other) - room(one) - offLine(one),
    )
    taken.push(best)
    const [px, py] = best
    const [dx, dy] = [(px - x) / Math.hypot(px - x, py - y), (py - y) / Math.hypot(px - x, py - y)]
    const ends = { x1: x + 8 * dx, y1: y + 8 * dy, x2: px - 11 * dx, y2: py - 11 * dy }
    return [
      svgElement('line', { ...ends, stroke: 'white', 'stroke-width': 4 }),
      svgElement('line', { ...ends, stroke: 'currentColor', 'stroke-width': 1.2 }),
      fieldText(px, py + 7.5, sign, 'middle', OVER_DOTS),
    ]
  })
}
