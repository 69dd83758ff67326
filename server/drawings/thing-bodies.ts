import { radians } from '../sky/angles.ts'
import type { BodyKey } from '../sky/body.ts'
import { diameterArcsec, litFractionOf } from '../sky/globe.ts'
import { pointsText, type Svg, svgElement } from './svg.ts'
import { type Drawn, type DrawnEllipse, type Sketch, together } from './thing-paper.ts'

const ARCSEC_PER_ARCMIN = 60

/** A planet's nearest and farthest distance from the Earth in au over the years, from memory, rounded. */
const DISTANCES: Readonly<Partial<Record<BodyKey, readonly [number, number]>>> = {
  mercury: [0.55, 1.45],
  venus: [0.27, 1.73],
  mars: [0.38, 2.67],
  jupiter: [3.95, 6.45],
  saturn: [8.1, 11],
  uranus: [17.4, 21],
  neptune: [28.9, 31.2],
}
const INNER: readonly BodyKey[] = ['mercury', 'venus']
/** Outer edge of Saturn's bright rings in widths of its globe, and their tilt when they are half open (Meeus, 2nd ed., chapter 45: 375.35" at 1 au against 165.6"). */
const RING_WIDTHS = 2.27
const INNER_RING_WIDTHS = 1.5
const RING_TILT_DEG = 15
/** Where Jupiter's two dark bands lie, in radii from its middle, and how broad they are; a sketch. */
export const BANDS = [0.28, -0.25] as const
const BAND_WIDTH = 0.14
const FLATTENED: Readonly<Partial<Record<BodyKey, number>>> = { jupiter: 0.935, saturn: 0.9 }
const CRESCENT_PHASE_DEG = 150

/** A planet as wide as it gets and as small as it gets, side by side; null for the Sun, the Moon and the Earth's likes. */
export function planetSketch(body: BodyKey): Sketch | null {
  const distances = DISTANCES[body]
  if (distances === undefined) return null
  const [near, far] = distances.map((au) => diameterArcsec(body, au) / ARCSEC_PER_ARCMIN)
  const wide = body === 'saturn' ? RING_WIDTHS : 1
  const [nearArcmin, farArcmin] = [near ?? 0, far ?? 0]
  const gapArcmin = nearArcmin * 0.35
  const widthArcmin = wide * (nearArcmin + farArcmin) + gapArcmin
  return {
    widthArcmin,
    heightArcmin: nearArcmin,
    size: { code: 'object.size-planet', arcmin: [nearArcmin, farArcmin] },
    draw(paper) {
      const leftPx = paper.x - (widthArcmin / 2) * paper.pxPerArcmin
      const nearX = leftPx + ((wide * nearArcmin) / 2) * paper.pxPerArcmin
      const farX = leftPx + (wide * (nearArcmin + farArcmin / 2) + gapArcmin) * paper.pxPerArcmin
      const radius = (arcmin: number) => (arcmin / 2) * paper.pxPerArcmin
      return together(
        planetDisc(body, { x: nearX, y: paper.y, radius: radius(nearArcmin) }, INNER.includes(body)),
        planetDisc(body, { x: farX, y: paper.y, radius: radius(farArcmin) }, false),
      )
    },
    notes: [
      INNER.includes(body) ? 'object.draw-inner' : 'object.draw-outer',
      ...(body === 'saturn' ? ['object.draw-rings'] : []),
    ],
  }
}

interface Disc {
  readonly x: number
  readonly y: number
  readonly radius: number
}

function planetDisc(body: BodyKey, disc: Disc, isCrescent: boolean): Drawn {
  const { x, y, radius } = disc
  const flat = FLATTENED[body] ?? 1
  const ellipse: DrawnEllipse = { x, y, halfMajorPx: radius, halfMinorPx: radius * flat, angleDeg: 90 }
  if (isCrescent) return { svg: [crescentOf(disc)], ellipses: [ellipse], stars: [] }
  const marks = body === 'jupiter' ? BANDS.map((band) => bandOf(disc, band)) : []
  const rings = body === 'saturn' ? ringsOf(disc) : []
  return { svg: [globeOf(ellipse), ...marks, ...rings], ellipses: [ellipse], stars: [] }
}

const globeOf = ({ x, y, halfMajorPx, halfMinorPx }: DrawnEllipse): Svg =>
  svgElement('ellipse', {
    cx: x,
    cy: y,
    rx: halfMajorPx,
    ry: halfMinorPx,
    fill: 'none',
    stroke: 'currentColor',
    'stroke-width': 1.5,
  })

function bandOf({ x, y, radius }: Disc, band: number): Svg {
  const half = radius * Math.sqrt(1 - band ** 2) * 0.96
  return svgElement('line', {
    x1: x - half,
    x2: x + half,
    y1: y - band * radius,
    y2: y - band * radius,
    stroke: 'currentColor',
    'stroke-opacity': 0.45,
    'stroke-width': BAND_WIDTH * radius,
  })
}

/** What is seen of the ring beside the globe behind it, and the half before it. */
function ringsOf({ x, y, radius }: Disc): Svg[] {
  const [outer, inner] = [RING_WIDTHS * radius, INNER_RING_WIDTHS * radius]
  const flat = Math.sin(radians(RING_TILT_DEG))
  const edge = (r: number, from: number, to: number, sign: 1 | -1) =>
    Array.from({ length: 31 }, (_, i): [number, number] => {
      const turn = from + ((to - from) * i) / 30
      return [x + r * Math.cos(turn), y + sign * r * flat * Math.sin(turn)]
    })
  const hidden = (r: number) =>
    Math.acos(
      Math.min(1, Math.sqrt(Math.max(0, 1 - (r * flat) ** 2 / radius ** 2) / ((r / radius) ** 2 * (1 - flat ** 2)))),
    )
  const behind = (side: 0 | 1) => {
    const end = (r: number) => (side === 0 ? hidden(r) : Math.PI - hidden(r))
    const start = side === 0 ? 0 : Math.PI
    return [...edge(outer, start, end(outer), -1), ...edge(inner, end(inner), start, -1)]
  }
  const before = [...edge(outer, 0, Math.PI, 1), ...edge(inner, Math.PI, 0, 1)]
  return [behind(0), behind(1), before].map(ringPart)
}

const ringPart = (points: readonly (readonly [number, number])[]): Svg =>
  svgElement('polygon', {
    points: pointsText(points),
    fill: 'currentColor',
    'fill-opacity': 0.3,
    stroke: 'currentColor',
    'stroke-width': 1,
  })

/** The lit part of a disc that is nearly new, its horns up and down. */
function crescentOf({ x, y, radius }: Disc): Svg {
  const inner = radius * (1 - 2 * litFractionOf(CRESCENT_PHASE_DEG))
  const turn = Array.from({ length: 31 }, (_, i) => -Math.PI / 2 + (Math.PI * i) / 30)
  const edge = (r: number) => turn.map((t): [number, number] => [x + r * Math.cos(t), y + radius * Math.sin(t)])
  return svgElement('polygon', {
    points: pointsText([...edge(radius), ...edge(inner).reverse()]),
    fill: 'none',
    stroke: 'currentColor',
    'stroke-width': 1.5,
    'stroke-linejoin': 'round',
  })
}
