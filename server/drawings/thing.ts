import type { Words } from '../words/words.ts'
import { type Svg, svgElement, svgPicture, svgText } from './svg.ts'
import { moonDisc } from './thing-moon.ts'
import {
  type DrawnEllipse,
  type DrawnStar,
  type Label,
  LETTERS,
  type Paper,
  placeOn,
  type Sketch,
} from './thing-paper.ts'
import { type Measure, type Scale, scaleFor, WIDTH } from './thing-scale.ts'
import { sketchOf, type ThingSubject } from './thing-sketch.ts'

export type { ThingSubject } from './thing-sketch.ts'

export interface ThingDrawing {
  readonly svg: Svg
  /** Sentences to stand below the picture: what its dots and lines mean. */
  readonly notes: readonly string[]
  readonly pxPerArcmin: number
  /** What tells its size: the full Moon's disc or a bar, and how long that is drawn; null where the thing is the Moon. */
  readonly measure: { readonly code: Measure; readonly arcmin: number; readonly px: number } | null
  readonly ellipses: readonly DrawnEllipse[]
  readonly stars: readonly DrawnStar[]
}

const TOP_PX = 46
const FOOT_PX = 40
const BAR_ROOM_PX = 74
const MOON_X = WIDTH - 96
const MIDDLE_X = WIDTH / 2
const BESIDE_MOON_X = 188

/** A thing to scale beside the full Moon or a bar of a length that is said: black ink, north up, east left. Null where there is nothing to draw. */
export function thingDrawing(subject: ThingSubject, words: Words): ThingDrawing | null {
  const sketch = sketchOf(subject)
  if (sketch === null) return null
  const isAlone = sketch.isOwnMeasure === true
  const scale = scaleFor(sketch.widthArcmin, sketch.heightArcmin, isAlone)
  const hasMoon = scale.measure === 'moon' && !isAlone
  const measurePx = scale.measureArcmin * scale.pxPerArcmin
  const tallPx = Math.max(sketch.heightArcmin * scale.pxPerArcmin, hasMoon ? measurePx : 0, 40)
  const paper = {
    x: hasMoon ? BESIDE_MOON_X : MIDDLE_X,
    y: TOP_PX + tallPx / 2,
    pxPerArcmin: scale.pxPerArcmin,
    isSmall: false,
  }
  const drawn = sketch.draw(paper)
  const heightPx = TOP_PX + tallPx + FOOT_PX + (hasMoon || isAlone ? 0 : BAR_ROOM_PX)
  const footY = TOP_PX + tallPx + FOOT_PX - 12
  const svg = svgPicture(
    {
      width: WIDTH,
      height: Math.ceil(heightPx),
      title: words.say('object.draw-title', { name: subject.thing.name }),
      description: describe(words, sketch, scale, isAlone),
    },
    ...compass(paper.x, tallPx, sketch.widthArcmin * scale.pxPerArcmin, words),
    ...drawn.svg,
    ...(sketch.labels ?? []).map((label) => labelOn(paper, label, words)),
    letters(paper.x, footY, sizeText(words, sketch)),
    ...(hasMoon ? moonBeside(paper.y, footY, scale, words) : []),
    ...(hasMoon || isAlone ? [] : barBelow(footY, scale, words)),
  )
  const notes = ['object.draw-north', ...sketch.notes].map((code) => words.say(code))
  const { ellipses, stars } = drawn
  const measure = isAlone ? null : { code: scale.measure, arcmin: scale.measureArcmin, px: measurePx }
  return { svg, notes, pxPerArcmin: scale.pxPerArcmin, measure, ellipses, stars }
}

const SMALL = 96
const SMALL_ROOM = 84

/** The shape alone, filling a little square; not to scale with its neighbours, and silent for those who listen. */
export function thingSmall(subject: ThingSubject): Svg | null {
  const sketch = sketchOf(subject)
  if (sketch === null) return null
  const pxPerArcmin = SMALL_ROOM / Math.max(sketch.widthArcmin, sketch.heightArcmin)
  const { svg } = sketch.draw({ x: SMALL / 2, y: SMALL / 2, pxPerArcmin, isSmall: true })
  return svgElement(
    'svg',
    { viewBox: `0 0 ${SMALL} ${SMALL}`, 'aria-hidden': 'true', xmlns: 'http://www.w3.org/2000/svg' },
    ...svg,
  )
}

const letters = (x: number, y: number, text: string, anchor: 'start' | 'middle' = 'middle'): Svg =>
  svgElement('text', { x, y, 'text-anchor': anchor, ...LETTERS }, svgText(text))

const CENTRED_PX = 8

function labelOn(paper: Paper, { eastArcmin, northArcmin, offPx, text }: Label, words: Words): Svg {
  const [x, y] = placeOn(paper, eastArcmin, northArcmin)
  const [right, down] = offPx
  const anchor = Math.abs(right) < CENTRED_PX ? 'middle' : right > 0 ? 'start' : 'end'
  const said = typeof text === 'string' ? words.called(text) : words.say(text.code)
  return svgElement('text', { x: x + right, y: y + down, 'text-anchor': anchor, ...LETTERS }, svgText(said))
}

/** `north` over the thing, `east` at its left. */
const compass = (x: number, tallPx: number, widePx: number, words: Words): Svg[] => [
  letters(x, 20, words.say('object.draw-up')),
  svgElement('line', { x1: x, x2: x, y1: 28, y2: 38, stroke: 'currentColor', 'stroke-width': 1.5 }),
  letters(Math.max(0, x - widePx / 2 - 64), TOP_PX + tallPx / 2 + 6, words.say('object.draw-left'), 'start'),
]

function moonBeside(y: number, footY: number, { pxPerArcmin }: Scale, words: Words): Svg[] {
  const { svg } = moonDisc({ x: MOON_X, y, pxPerArcmin, isSmall: false })
  return [...svg, letters(MOON_X, footY, words.say('object.measure-moon'))]
}

function barBelow(footY: number, { measure, measureArcmin, pxPerArcmin }: Scale, words: Words): Svg[] {
  const half = (measureArcmin * pxPerArcmin) / 2
  const y = footY + 34
  const stroke = { stroke: 'currentColor', 'stroke-width': 3 }
  return [
    svgElement('line', { x1: MIDDLE_X - half, x2: MIDDLE_X + half, y1: y, y2: y, ...stroke }),
    ...[-half, half].map((x) =>
      svgElement('line', { x1: MIDDLE_X + x, x2: MIDDLE_X + x, y1: y - 7, y2: y + 7, ...stroke }),
    ),
    letters(MIDDLE_X, y + 28, measureText(words, measure)),
  ]
}

function describe(words: Words, sketch: Sketch, { measure, measureArcmin }: Scale, isAlone: boolean): string {
  const size = words.say('object.draw-size', { size: sizeText(words, sketch) })
  if (isAlone) return size
  const times = sketch.size.arcmin[0] / measureArcmin
  const said = words.say(times >= 1 ? 'object.draw-larger' : 'object.draw-smaller', {
    measure: measureText(words, measure),
    times: words.number(times >= 1 ? times : 1 / times, 1),
  })
  return `${size} ${said}`
}

/** A coin of 2 cm is one arcsecond wide from so far away. */
const COIN_KM = 4

const measureText = (words: Words, measure: Measure): string =>
  words.say(`object.measure-${measure}`, { distance: words.length(COIN_KM, 'kilometer') })

const sizeText = (words: Words, { size: { code, arcmin } }: Sketch): string => {
  const [one, other] = arcmin
  return words.say(code, { one: angleText(words, one), other: other === undefined ? '' : angleText(words, other) })
}

/** An angle in degrees, arcminutes or arcseconds in words. */
export function angleText(words: Words, arcmin: number): string {
  if (arcmin >= 60) return angleIn(words, 'degrees', arcmin / 60)
  return arcmin >= 2 ? angleIn(words, 'arcminutes', arcmin) : angleIn(words, 'arcseconds', 60 * arcmin)
}

const angleIn = (words: Words, unit: 'degrees' | 'arcminutes' | 'arcseconds', value: number): string =>
  words.say(`object.${unit}`, { count: value < 10 ? Math.round(10 * value) / 10 : value, angle: figure(words, value) })

/** A number under ten to one decimal where that says anything, else whole. */
export const figure = (words: Words, value: number): string => {
  const tenths = Math.round(10 * value) / 10
  return words.number(value, value < 10 && !Number.isInteger(tenths) ? 1 : 0)
}
