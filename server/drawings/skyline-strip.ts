import { POINT_DEG } from '../tours/pointing.ts'
import type { Site } from '../tours/site.ts'
import { pointShort } from '../words/directions.ts'
import type { Words } from '../words/words.ts'
import { skylineOf } from './skyline.ts'
import { type Svg, svgElement, svgPicture, svgText } from './svg.ts'
import type { Scale } from './walk-scale.ts'

const AROUND_DEG = 360
const WIDTH_MM = 110
const MM_PER_DEG = WIDTH_MM / AROUND_DEG
/** So much sky is drawn at least, so that a low hedge looks low. */
const LEAST_TOP_DEG = 30
const LETTER_MM = 4.4
const FOOT_MM = 5.5
const QUARTER_DEG = 90

/** All that stands around a site, as wide as high: from north over east, south and west to north. */
export function skylineStrip({ name, horizon }: Pick<Site, 'name' | 'horizon'>, words: Words): Svg {
  const topDeg = Math.max(LEAST_TOP_DEG, ...horizon.map(({ altitudeDeg }) => altitudeDeg))
  const groundMm = topDeg * MM_PER_DEG
  const scale: Scale = {
    paper: { widthMm: WIDTH_MM, groundMm, leftMm: 0, headMm: 0, sizePt: 12 },
    fromDeg: 0,
    toDeg: AROUND_DEG,
    topDeg,
    azimuths: new Map(),
    x: (azimuthDeg) => azimuthDeg * MM_PER_DEG,
    y: (altitudeDeg) => groundMm - altitudeDeg * MM_PER_DEG,
  }
  return svgPicture(
    { width: WIDTH_MM, height: groundMm + FOOT_MM, title: words.say('drawing.skyline-strip', { name }) },
    ...skylineOf(horizon, scale),
    ...pointMarks(groundMm, words),
  )
}

/** North stands at either end, within the edge. */
const pointMarks = (groundMm: number, words: Words): Svg[] =>
  Array.from({ length: AROUND_DEG / QUARTER_DEG + 1 }, (_, k) => {
    const azimuthDeg = k * QUARTER_DEG
    const anchor = k === 0 ? 'start' : azimuthDeg === AROUND_DEG ? 'end' : 'middle'
    const place = { x: azimuthDeg * MM_PER_DEG, y: groundMm + FOOT_MM - 1, 'text-anchor': anchor }
    return svgElement(
      'text',
      { ...place, 'font-size': LETTER_MM, fill: 'currentColor' },
      svgText(pointShort(words, azimuthDeg / POINT_DEG)),
    )
  })
