import type { Words } from '../words/words.ts'
import type { PlacedStaff, ScoreSheet, ScoreSubject } from './score.ts'
import type { BarLine } from './score-head.ts'
import { type DrawnLeave, type DrawnNote, ON_BAR_MM } from './score-staff.ts'
import type { TimeScale } from './score-time.ts'
import { type Attributes, type Svg, svgElement, svgPicture } from './svg.ts'
import { type Box, lineMm } from './word-box.ts'
import { wordsIn } from './word-paper.ts'

const INK = 'currentColor'

/** A sheet as SVG whose units are millimetres at the printed width. */
export function scoreSvg(
  sheet: Omit<ScoreSheet, 'svg'>,
  scale: TimeScale,
  { night }: ScoreSubject,
  words: Words,
  sheetText: string | null,
): Svg {
  const { zone } = night.site
  const values = {
    title: night.title,
    from: words.time(sheet.fromAt, zone),
    to: words.time(sheet.toAt, zone),
    stations: words.say('score.stations', { count: sheet.staves.length }),
    stops: words.say('score.stops', { count: sheet.staves.reduce((sum, { notes }) => sum + notes.length, 0) }),
  }
  const title = [words.say('score.title', values), sheetText ?? ''].join(' ').trim()
  return svgPicture(
    {
      width: sheet.widthMm,
      height: Math.ceil(sheet.heightMm * 10) / 10,
      title,
      description: words.say('score.desc', values),
    },
    ...fiveLines(sheet, scale),
    ...timeLines(sheet),
    ...sheet.barLines.flatMap((barLine) => barLineOf(barLine, sheet)),
    ...sheet.about.flatMap((box) => wordsIn(box, 0)),
    ...sheet.ticks.flatMap(({ word }) => (word ? wordsIn(word, 0, true) : [])),
    ...sheet.staves.flatMap(staffMarks),
  )
}

const line = (x1: number, y1: number, x2: number, y2: number, width: number, more: Attributes = {}): Svg =>
  svgElement('line', { x1, y1, x2, y2, stroke: INK, 'stroke-width': width, ...more })

/** The five lines of every staff, and the stroke that joins the staves at the left. */
function fiveLines({ staves }: Omit<ScoreSheet, 'svg'>, { leftMm, rightMm }: TimeScale): Svg[] {
  const [first, last] = [staves[0], staves.at(-1)]
  const lines = staves.flatMap(({ lineMm: top, bodyMm }) =>
    [0, 1, 2, 3, 4].map((k) => line(leftMm, top + (k * bodyMm) / 4, rightMm, top + (k * bodyMm) / 4, 0.18)),
  )
  if (!first || !last) return lines
  return [...lines, line(leftMm, first.lineMm, leftMm, last.lineMm + last.bodyMm, 1.2)]
}

const HALF_HOUR_DASH = '0.6 2.4'

function timeLines({ ticks, staves }: Omit<ScoreSheet, 'svg'>): Svg[] {
  const [first, last] = [staves[0], staves.at(-1)]
  if (!first || !last) return []
  const head = Math.max(...ticks.map(({ word }) => word?.y2 ?? 0))
  return ticks.map(({ x, isHour }) =>
    line(x, head, x, last.lineMm + last.bodyMm, 0.25, isHour ? {} : { 'stroke-dasharray': HALF_HOUR_DASH }),
  )
}

/** Every kind of line across the staves by its own strokes: its words stand at the top. */
const STROKES: Readonly<Record<string, Attributes>> = {
  opens: {},
  closes: {},
  moonrise: { 'stroke-dasharray': '0.7 1.5' },
  moonset: { 'stroke-dasharray': '0.7 1.5' },
}
const OTHER_STROKE: Attributes = { 'stroke-dasharray': '4 1.6' }

function barLineOf({ code, x, word }: BarLine, { staves }: Omit<ScoreSheet, 'svg'>): Svg[] {
  const last = staves.at(-1)
  const foot = last ? last.lineMm + last.bodyMm + 2 : word.y2
  const isDoor = code === 'opens' || code === 'closes'
  const strokes = STROKES[code] ?? OTHER_STROKE
  const second = code === 'opens' ? x - 1.3 : x + 1.3
  return [
    line(x, word.y1, x, foot, isDoor ? 0.4 : 0.6, strokes),
    ...(isDoor ? [line(second, word.y1, second, foot, 1)] : []),
    ...wordsIn(word, 0, true),
  ]
}

function staffMarks({ lineMm: top, bodyMm, label, words, notes, leaves }: PlacedStaff): Svg[] {
  return [
    ...label.flatMap((box) => wordsIn(box, top)),
    ...(words ? wordsIn(words, top, true) : []),
    ...leaves.flatMap((leave) => leaveStroke(leave, top + bodyMm)),
    ...notes.flatMap((note) => noteStrokes(note, top, bodyMm)),
    ...[
      ...notes.flatMap(({ name, looks }) => [name, ...(looks ? [looks] : [])]),
      ...leaves.flatMap(({ word }) => word ?? []),
    ].flatMap((box) => wordsIn(box, top, true)),
  ]
}

const HEAD = { rx: 1.9, ry: 1.35 }

/** A stop: a stem and a head where it begins, and a bar to its end; two thin bars where a mount gives two looks. */
function noteStrokes({ x1, x2, name, leadX, looks, looksLeadX }: DrawnNote, top: number, bodyMm: number): Svg[] {
  const bar = top + bodyMm
  const bars = looks ? [bar - 1.1, bar + 1.1] : [bar]
  const headX = Math.min(x1 + HEAD.rx, (x1 + x2) / 2)
  const tilt = `rotate(-18 ${Math.round(headX * 100) / 100} ${Math.round(bar * 100) / 100})`
  const leadTo = (x: number | null, box: Box | null): Svg[] =>
    x === null || box === null ? [] : [line(x, box.y1 < 0 ? bar : bar + 0.5, x, top + box.y2 - 1, 0.3)]
  return [
    line(x1, top - 0.6, x1, bar, 0.5),
    ...bars.map((y) => line(x1, y, x2, y, looks ? 0.9 : 1.4)),
    line(x2, bar - ON_BAR_MM - 0.6, x2, bar + 1, 0.5),
    svgElement('ellipse', { cx: headX, cy: bar, ...HEAD, transform: tilt, fill: INK }),
    ...leadTo(leadX, name),
    ...leadTo(looksLeadX, looks),
  ]
}

const leaveStroke = ({ x, word }: DrawnLeave, bar: number): Svg[] => [
  line(x, bar - 3, x, bar + (word ? 2.4 + lineMm(word.sizePt) - 1 : 2.4), 0.5, { 'stroke-linecap': 'round' }),
]
