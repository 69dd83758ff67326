import type { ClearSpan } from '../tours/clear-spans.ts'
import type { Words } from '../words/words.ts'
import { type Svg, svgElement } from './svg.ts'
import type { WalkPaper } from './walk-scale.ts'
import { type Box, boxAt, lineMm, type Text, textIn, widthMm } from './word-box.ts'
import { type Placed, placeAll } from './word-lanes.ts'
import { wordsIn } from './word-paper.ts'

/** A time in which the object is clear, as a piece of the bar with its words beneath. */
interface ClearPiece {
  readonly fromAt: Date
  readonly untilAt: Date
  readonly x1: number
  readonly x2: number
  readonly word: Box
  /** The line from the piece to words that do not stand right under it. */
  readonly leadX: number | null
}

/** The public hours as one bar from `x1` to `x2`, heavy where the object is clear. */
export interface ClearBar {
  readonly fromAt: Date
  readonly toAt: Date
  readonly x1: number
  readonly x2: number
  readonly y: number
  readonly ends: readonly Box[]
  readonly pieces: readonly ClearPiece[]
  /** What is said when it is never clear. */
  readonly never: Box | null
  readonly footMm: number
}

interface BarSubject {
  readonly clear: readonly ClearSpan[]
  readonly fromAt: Date
  readonly toAt: Date
  readonly zone: string
  readonly paper: WalkPaper
  readonly topMm: number
}

const AIR_MM = 2
const UNDER_MM = 0.3

/** The bar with its pieces, from `topMm` down. */
export function clearBar(subject: BarSubject, words: Words): ClearBar {
  const { clear, fromAt, toAt, zone, paper, topMm } = subject
  const pitch = lineMm(paper.sizePt)
  const y = topMm + pitch / 2
  const times = [fromAt, toAt].map((at) => textIn(words.time(at, zone), paper.widthMm, paper.sizePt))
  const widths = times.map(widthMm)
  const [x1, x2] = [(widths[0] ?? 0) + AIR_MM, paper.widthMm - (widths[1] ?? 0) - AIR_MM]
  const ends = times.map((text, i) => boxAt(text, i === 0 ? 0 : x2 + AIR_MM, topMm))
  const share = (at: Date): number => (at.getTime() - fromAt.getTime()) / (toAt.getTime() - fromAt.getTime() || 1)
  const xOf = (at: Date): number => x1 + (x2 - x1) * Math.min(1, Math.max(0, share(at)))
  const texts = clear.map((span) => textIn(spanText(span, zone, words), paper.widthMm - 2, paper.sizePt, true))
  const places = placeAll(
    clear.map(({ fromAt: at }, i) => {
      const text = texts[i] ?? textIn('', paper.widthMm, paper.sizePt)
      return { x: xOf(at), widthMm: widthMm(text), lines: text.lines.length, sides: ['below'] }
    }),
    { leftMm: 0, rightMm: paper.widthMm },
  )
  const under = topMm + pitch + UNDER_MM
  const pieces = clear.flatMap((span, i): ClearPiece[] => {
    const [text, place] = [texts[i], places[i]]
    return text && place ? [pieceOf(span, xOf, text, place, under)] : []
  })
  const never =
    clear.length > 0
      ? null
      : boxAt(textIn(words.say('drawing.walk-never'), paper.widthMm, paper.sizePt, true), x1, under)
  const footMm = Math.max(topMm + pitch, ...pieces.map(({ word }) => word.y2), never?.y2 ?? 0)
  return { fromAt, toAt, x1, x2, y, ends, pieces, never, footMm }
}

function pieceOf(
  { fromAt, untilAt }: ClearSpan,
  xOf: (at: Date) => number,
  text: Text,
  place: Placed,
  under: number,
): ClearPiece {
  const word = boxAt(text, place.x1, under + (place.lane - 1) * lineMm(text.sizePt))
  const [x1, x2] = [xOf(fromAt), xOf(untilAt)]
  const isUnder = place.lane === 1 && word.x1 < x2 && word.x2 > x1
  return { fromAt, untilAt, x1, x2, word, leadX: isUnder ? null : place.x }
}

function spanText({ fromAt, untilAt, before, after }: ClearSpan, zone: string, words: Words): string {
  const things = [before, after].flatMap((cause) =>
    cause?.code !== 'skyline'
      ? []
      : [cause.name ? words.say('drawing.walk-thing', { name: cause.name }) : words.say('cause.trees')],
  )
  const values = {
    from: words.time(fromAt, zone),
    to: words.time(untilAt, zone),
    things: words.list([...new Set(things)]),
  }
  return words.say(things.length > 0 ? 'drawing.walk-clear-of' : 'drawing.walk-clear', values)
}

/** The bar as it is drawn. */
export function barMarks({ x1, x2, y, ends, pieces, never }: ClearBar): Svg[] {
  const line = (from: [number, number], to: [number, number], width: number): Svg =>
    svgElement('line', {
      x1: from[0],
      y1: from[1],
      x2: to[0],
      y2: to[1],
      stroke: 'currentColor',
      'stroke-width': width,
    })
  const edge = (x: number): Svg => line([x, y - 1.8], [x, y + 1.8], 0.5)
  return [
    line([x1, y], [x2, y], 0.3),
    edge(x1),
    edge(x2),
    ...pieces.flatMap((piece) => [
      line([piece.x1, y], [piece.x2, y], 2.4),
      ...(piece.leadX === null ? [] : [line([piece.leadX, y], [piece.leadX, piece.word.y2 - 1], 0.3)]),
      ...wordsIn(piece.word, 0),
    ]),
    ...ends.flatMap((box) => wordsIn(box, 0)),
    ...(never ? wordsIn(never, 0) : []),
  ]
}
