import { tubeView } from '../sight/orientation.ts'
import type { Words } from '../words/words.ts'
import type { FieldSubject, FieldView } from './field.ts'
import { brokenLines, fieldText, textPx } from './field-letters.ts'
import { type Svg, svgElement } from './svg.ts'
import { angleText, figure } from './thing.ts'
import { MOON_ARCMIN } from './thing-moon.ts'

/** Lengths of bars that are easily said, in arcminutes, longest first; the full Moon's width is one of them. */
const LENGTHS_ARCMIN = [120, 60, MOON_ARCMIN, 10, 5, 2, 1, 1 / 2, 1 / 6] as const

/** What every view says of itself below its circle: tube and eyepiece, power and field, instant, how it is turned. */
export function footWords({ views, at, zone }: FieldSubject, view: FieldView, words: Words): readonly string[] {
  const { tube, setup, telescopeName, eyepieceName } = view
  const tubeName =
    views.length > 1 ? words.say('field-drawing.tube', { telescope: telescopeName, tube: tube.name }) : telescopeName
  return [
    words.say('field-drawing.with', { telescope: tubeName, eyepiece: eyepieceName }),
    words.say('field-drawing.power', {
      power: words.number(setup.powerX),
      field: angleText(words, 60 * setup.trueFieldDeg),
    }),
    words.say('field-drawing.when', { day: words.dayAndMonth(at, zone), time: words.time(at, zone) }),
    words.say(`field-drawing.view-${tubeView(tube).code}`),
  ]
}

/** The same in as few words as stand beside its circle; the card itself says which night it is of. */
export function cardWords({ at, zone }: FieldSubject, { tube, setup, eyepieceName }: FieldView, words: Words) {
  return [
    words.say('field-drawing.card-power', { eyepiece: eyepieceName, power: words.number(setup.powerX) }),
    words.say('field-drawing.card-field', { field: shortText(words, setup.trueFieldDeg) }),
    words.say('field-drawing.card-when', { time: words.time(at, zone) }),
    words.say(`field-drawing.card-${tubeView(tube).code}`),
  ]
}

const LEAST_DEGREES = 0.3

/** The width of a field in degrees with one decimal, which is shorter than in arcminutes; in these where that would say too little. */
const shortText = (words: Words, deg: number): string =>
  deg < LEAST_DEGREES
    ? angleText(words, 60 * deg)
    : words.say('object.degrees', { count: Math.round(10 * deg) / 10, angle: figure(words, deg) })

/** A part of the paper for words: its left edge, its width, and how far its lines are apart. */
interface Part {
  readonly x: number
  readonly widePx: number
  readonly linePx: number
}

/** A bar with its length in words beside it, or below it where there is no room, to the scale of the circle. */
export function scaleBar(
  { x, widePx, linePx, longestPx }: Part & { readonly longestPx: number },
  y: number,
  pxPerArcmin: number,
  words: Words,
): { readonly svg: readonly Svg[]; readonly bottomPx: number } {
  const arcmin =
    LENGTHS_ARCMIN.find((it) => it * pxPerArcmin <= longestPx) ?? LENGTHS_ARCMIN[LENGTHS_ARCMIN.length - 1] ?? 1
  const long = arcmin * pxPerArcmin
  const ink = { stroke: 'currentColor', 'stroke-width': 2 }
  const text = arcmin === MOON_ARCMIN ? words.say('object.measure-moon') : angleText(words, arcmin)
  const isBelow = long + BESIDE_PX + textPx(text) > widePx
  const [textX, textY] = isBelow ? [x, y + linePx - 4] : [x + long + BESIDE_PX, y]
  const svg = [
    svgElement('line', { x1: x, x2: x + long, y1: y - 7, y2: y - 7, ...ink }),
    ...[x + 1, x + long - 1].map((end) => svgElement('line', { x1: end, x2: end, y1: y - 15, y2: y + 1, ...ink })),
    fieldText(textX, textY, text),
  ]
  return { svg, bottomPx: textY + 8 }
}

const BESIDE_PX = 10

/** Lines of words from a height on, and the height below them. */
export function linesFrom(
  { x, widePx, linePx }: Part,
  y: number,
  texts: readonly string[],
): { readonly svg: readonly Svg[]; readonly y: number } {
  const lines = texts.flatMap((text) => brokenLines(text, widePx))
  return { svg: lines.map((text, i) => fieldText(x, y + i * linePx, text)), y: y + lines.length * linePx }
}
