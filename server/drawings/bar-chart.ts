import { type Svg, svgElement, svgPicture } from './svg.ts'
import { type Box, boxAt, LEAST_PT, lineMm, type Text, textIn, widthMm } from './word-box.ts'
import { wordsIn } from './word-paper.ts'

/** How a part of a bar is filled: patterns, since nothing here has a colour. */
type BarFill = 'solid' | 'striped'

interface BarRow {
  readonly label: string
  /** What stands behind the bar. */
  readonly said: string
  /** One part after the other from the left, each 0 or more. */
  readonly parts: readonly { readonly value: number; readonly fill: BarFill }[]
}

interface BarSubject {
  readonly title: string
  readonly rows: readonly BarRow[]
  readonly legend: readonly { readonly fill: BarFill; readonly text: string }[]
}

interface DrawnBar {
  readonly label: Box
  readonly said: Box
  readonly parts: readonly {
    readonly value: number
    readonly fill: BarFill
    readonly x1: number
    readonly x2: number
  }[]
  readonly y1: number
  readonly y2: number
}

/** A picture of bars, with what stands where in it, in millimetres. */
interface BarChart {
  readonly svg: Svg
  readonly widthMm: number
  readonly heightMm: number
  readonly mmPerOne: number
  readonly bars: readonly DrawnBar[]
}

/** The width at which it is drawn: letters are 12 points there. */
export const BAR_CHART_MM = 120
const LABEL_MM = 46
const GAP_MM = 2
const BAR_MM = 5
const ROW_AIR_MM = 1.6
const STRIPE_MM = 1.4
const STROKE_MM = 0.35
const LEGEND_MM = 8

/** Bars to one scale from one line, their names at the left and their numbers behind them. */
export function barChart({ title, rows, legend }: BarSubject): BarChart {
  const texts = rows.map(({ label, said }) => ({
    label: textIn(label, LABEL_MM, LEAST_PT),
    said: textIn(said, BAR_CHART_MM, LEAST_PT, true),
  }))
  const zeroMm = LABEL_MM + GAP_MM
  const saidMm = Math.max(0, ...texts.map(({ said }) => widthMm(said)))
  const most = Math.max(0, ...rows.map(sumOfRow))
  const mmPerOne = most === 0 ? 0 : (BAR_CHART_MM - zeroMm - GAP_MM - saidMm) / most
  let topMm = legend.length === 0 ? 0 : lineMm(LEAST_PT) + ROW_AIR_MM
  const bars = rows.map((row, i): DrawnBar => {
    const text = texts[i] ?? { label: textIn('', LABEL_MM, LEAST_PT), said: textIn('', LABEL_MM, LEAST_PT) }
    const bar = drawnBar(row, text, { zeroMm, mmPerOne, topMm })
    topMm = Math.max(bar.label.y2, bar.y2) + ROW_AIR_MM
    return bar
  })
  const heightMm = Math.max(topMm, lineMm(LEAST_PT))
  const svg = svgPicture(
    { width: BAR_CHART_MM, height: heightMm, title },
    ...legend.flatMap((entry, i) => legendEntry(entry, (i * BAR_CHART_MM) / legend.length)),
    ...bars.flatMap(barMarks),
    ...(bars.length === 0 ? [] : [line(zeroMm, bars[0]?.y1 ?? 0, zeroMm, heightMm - ROW_AIR_MM)]),
  )
  return { svg, widthMm: BAR_CHART_MM, heightMm, mmPerOne, bars }
}

const sumOfRow = ({ parts }: BarRow): number => parts.reduce((sum, { value }) => sum + value, 0)

function drawnBar(
  { parts }: BarRow,
  text: { readonly label: Text; readonly said: Text },
  { zeroMm, mmPerOne, topMm }: { readonly zeroMm: number; readonly mmPerOne: number; readonly topMm: number },
): DrawnBar {
  let x = zeroMm
  const drawn = parts.map(({ value, fill }) => {
    const x1 = x
    x += value * mmPerOne
    return { value, fill, x1, x2: x }
  })
  const high = Math.max(BAR_MM, lineMm(LEAST_PT))
  const y1 = topMm + (high - BAR_MM) / 2
  const wordsTop = topMm + (high - lineMm(LEAST_PT)) / 2
  return {
    label: boxAt(text.label, 0, wordsTop),
    said: boxAt(text.said, x + GAP_MM, wordsTop),
    parts: drawn,
    y1,
    y2: y1 + BAR_MM,
  }
}

const barMarks = ({ label, said, parts, y1, y2 }: DrawnBar): Svg[] => [
  ...wordsIn(label, 0),
  ...parts.flatMap(({ fill, x1, x2 }) => (x2 > x1 ? filled(fill, x1, x2, y1, y2) : [])),
  ...wordsIn(said, 0),
]

function filled(fill: BarFill, x1: number, x2: number, y1: number, y2: number): Svg[] {
  const box = { x: x1, y: y1, width: x2 - x1, height: y2 - y1, stroke: 'currentColor', 'stroke-width': STROKE_MM }
  if (fill === 'solid') return [svgElement('rect', { ...box, fill: 'currentColor' })]
  const stripes = Array.from({ length: Math.floor((x2 - x1) / STRIPE_MM) }, (_, i) => x1 + (i + 1) * STRIPE_MM)
  return [svgElement('rect', { ...box, fill: 'none' }), ...stripes.map((x) => line(x, y1, x, y2))]
}

const line = (x1: number, y1: number, x2: number, y2: number): Svg =>
  svgElement('line', { x1, y1, x2, y2, stroke: 'currentColor', 'stroke-width': STROKE_MM })

function legendEntry({ fill, text }: BarSubject['legend'][number], x: number): Svg[] {
  const y = (lineMm(LEAST_PT) - BAR_MM) / 2
  const said = boxAt(textIn(text, BAR_CHART_MM, LEAST_PT), x + LEGEND_MM + GAP_MM, 0)
  return [...filled(fill, x, x + LEGEND_MM, y, y + BAR_MM), ...wordsIn(said, 0)]
}
