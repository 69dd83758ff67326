import { wrap360 } from '../sky/angles.ts'
import { POINT_DEG } from '../tours/pointing.ts'
import type { Site, SkylinePoint } from '../tours/site.ts'
import { pointShort } from '../words/directions.ts'
import type { Words } from '../words/words.ts'
import { skylineOf } from './skyline.ts'
import { type Svg, svgElement, svgText } from './svg.ts'
import type { Scale } from './walk-scale.ts'

/** Where the quarters of the compass begin, in degrees. */
export const QUARTERS_DEG = [0, 90, 180, 270] as const
export type QuarterDeg = (typeof QUARTERS_DEG)[number]

const SPAN_DEG = 90
const TOP_DEG = 60
const PX_PER_DEG = 3
const HEAD_PX = 6
const FOOT_PX = 26
const GROUND_PX = HEAD_PX + TOP_DEG * PX_PER_DEG

/** The size at which a quarter is shown, whatever the page: a tap on it is measured in these. */
export const QUARTER_PX = { width: SPAN_DEG * PX_PER_DEG, height: GROUND_PX + FOOT_PX } as const

/** Millimetres of the screen, in which the skyline is drawn as it is on paper. */
const MM_PER_PX = 25.4 / 96

/** The corner at a tap, to the degree: pixels from the upper left of the quarter that begins at `fromDeg`. */
export function tappedCorner(
  fromDeg: QuarterDeg,
  { xPx, yPx }: { readonly xPx: number; readonly yPx: number },
): Pick<SkylinePoint, 'azimuthDeg' | 'altitudeDeg'> {
  const across = Math.min(SPAN_DEG, Math.max(0, xPx / PX_PER_DEG))
  const up = Math.min(TOP_DEG, Math.max(0, (GROUND_PX - yPx) / PX_PER_DEG))
  return { azimuthDeg: wrap360(Math.round(fromDeg + across)), altitudeDeg: Math.round(up) }
}

interface QuarterDrawing {
  readonly svg: Svg
  readonly corners: readonly { readonly xPx: number; readonly yPx: number }[]
}

/** A quarter of the compass from left to right with its skyline, its corners as dots, and a dotted line for every ten degrees up. */
export function skylineQuarter(horizon: Site['horizon'], fromDeg: QuarterDeg, words: Words): QuarterDrawing {
  const { width, height } = QUARTER_PX
  const scale = scaleFrom(fromDeg)
  const corners = horizon.flatMap(({ azimuthDeg, altitudeDeg }) => {
    const across = wrap360(azimuthDeg - fromDeg)
    return across <= SPAN_DEG ? [{ xPx: across * PX_PER_DEG, yPx: GROUND_PX - altitudeDeg * PX_PER_DEG }] : []
  })
  const svg = svgElement(
    'svg',
    { viewBox: `0 0 ${width * MM_PER_PX} ${height * MM_PER_PX}`, width, height, xmlns: 'http://www.w3.org/2000/svg' },
    ...skylineOf(horizon, scale),
    ...heightLines(),
    ...pointMarks(fromDeg, words),
    ...corners.map(({ xPx, yPx }) => svgElement('circle', { cx: xPx * MM_PER_PX, cy: yPx * MM_PER_PX, r: 1 })),
  )
  return { svg, corners }
}

const scaleFrom = (fromDeg: number): Scale => ({
  paper: { widthMm: QUARTER_PX.width * MM_PER_PX, groundMm: GROUND_PX * MM_PER_PX, leftMm: 0, headMm: 0, sizePt: 12 },
  fromDeg,
  toDeg: fromDeg + SPAN_DEG,
  topDeg: TOP_DEG,
  azimuths: new Map(),
  x: (azimuthDeg) => (azimuthDeg - fromDeg) * PX_PER_DEG * MM_PER_PX,
  y: (altitudeDeg) => (GROUND_PX - altitudeDeg * PX_PER_DEG) * MM_PER_PX,
})

const letters = (text: string, xPx: number, yPx: number, anchor: string, sizePx: number): Svg =>
  svgElement(
    'text',
    {
      x: xPx * MM_PER_PX,
      y: yPx * MM_PER_PX,
      'font-size': sizePx * MM_PER_PX,
      'font-family': 'sans-serif',
      'text-anchor': anchor,
      stroke: 'white',
      'stroke-width': 0.9,
      'paint-order': 'stroke',
    },
    svgText(text),
  )

const HEIGHTS_DEG = [10, 20, 30, 40, 50, 60]

const heightLines = (): Svg[] =>
  HEIGHTS_DEG.flatMap((heightDeg) => {
    const y = GROUND_PX - heightDeg * PX_PER_DEG
    const line = { x1: 0, x2: QUARTER_PX.width * MM_PER_PX, y1: y * MM_PER_PX, y2: y * MM_PER_PX }
    return [
      svgElement('line', { ...line, stroke: 'black', 'stroke-width': 0.25, 'stroke-dasharray': '0.5 1.6' }),
      letters(`${heightDeg}°`, 2, y + 14, 'start', 13),
    ]
  })

/** The five compass points of the quarter along its foot, the outer two within its edges. */
const pointMarks = (fromDeg: number, words: Words): Svg[] =>
  Array.from({ length: SPAN_DEG / POINT_DEG + 1 }, (_, k) => {
    const anchor = k === 0 ? 'start' : k * POINT_DEG === SPAN_DEG ? 'end' : 'middle'
    const point = pointShort(words, fromDeg / POINT_DEG + k)
    return letters(point, k * POINT_DEG * PX_PER_DEG, GROUND_PX + 20, anchor, 16)
  })
