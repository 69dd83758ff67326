import { CsvError, parse } from 'csv-parse/sync'
import type { MessageValues, Problem } from '../../errors.ts'
import { wrap360 } from '../../sky/angles.ts'
import { heightDeg } from '../../words/heights.ts'
import type { Words } from '../../words/words.ts'
import { bearingDeg } from '../pages/bearing.ts'
import type { LineProblem } from '../pages/own-columns.ts'
import { MOST_CORNERS } from '../pages/site-rows.ts'
import type { SkylineNote } from '../pages/site-skyline.ts'
import type { FormValues } from './form-values.ts'

/** The letters of a list that are read. */
export const MOST_LIST_LETTERS = 20_000
const HIGHEST_DEG = 60
const LONGEST_NAME = 40
const WIDE_DEG = 45

interface Row {
  readonly line: number
  readonly cells: readonly string[]
}

interface ReadSkyline {
  /** The rows of the form that the list fills, each cell as it was written. */
  readonly rows: readonly FormValues[]
  readonly problems: readonly LineProblem[]
  /** What is worth a look though nothing is wrong. */
  readonly notes: readonly SkylineNote[]
}

/** The corners of a list with a direction, a height and a name a line; blank lines, a heading and what follows a # are passed over. */
export function readSkylineCsv(text: string, words: Words): ReadSkyline {
  if (text.length > MOST_LIST_LETTERS) return refused(1, 'problem.csv-large', { maximum: MOST_LIST_LETTERS })
  const { rows, broken } = rowsOf(text, words)
  const [first, ...others] = rows
  const isHeading = first !== undefined && isHeadingRow(first, words)
  const corners = isHeading ? others : rows
  const problems = [
    ...broken,
    ...corners.flatMap((row) => rowProblems(row, words)),
    ...sameDirections(corners, words),
    ...tooMany(corners),
  ].sort((a, b) => a.line - b.line)
  if (problems.length > 0) return { rows: [], problems, notes: [] }
  if (corners.length === 0) return refused(1, 'problem.skyline-empty')
  const heading = isHeading ? [{ key: 'skyline.heading', values: { line: first.line } }] : []
  const taken = { key: 'skyline.taken', values: { count: corners.length } }
  return { rows: corners.map(formRow), problems: [], notes: [taken, ...heading, ...wideGaps(corners, words)] }
}

const problem = (line: number, key: string, values: MessageValues = {}): LineProblem => ({
  line,
  column: '',
  key,
  values,
})
const refused = (line: number, key: string, values: MessageValues = {}): ReadSkyline => ({
  rows: [],
  problems: [problem(line, key, values)],
  notes: [],
})

function rowsOf(
  text: string,
  words: Words,
): { readonly rows: readonly Row[]; readonly broken: readonly LineProblem[] } {
  const rows: Row[] = []
  const broken: LineProblem[] = []
  for (const [index, written] of text.split(/\r\n|\r|\n/).entries()) {
    const bare = written.replace(/^\uFEFF/, '').replace(/(^|\s)#(\s.*|$)|^\s*#.*/, '')
    if (/^[\s,;]*$/.test(bare)) continue
    try {
      rows.push({ line: index + 1, cells: cellsOf(bare, words) })
    } catch (error) {
      if (!(error instanceof CsvError)) throw error
      broken.push(problem(index + 1, 'problem.csv-quotes'))
    }
  }
  return { rows, broken }
}

/** The cells of a line: parted by tabs or semicolons where it has any, else by commas, of which those between two figures may be decimal. */
function cellsOf(line: string, words: Words): readonly string[] {
  const delimiter = ['\t', ';'].find((sign) => line.includes(sign))
  if (delimiter !== undefined) return split(line, delimiter)
  const apart = split(line, ',')
  if (!/,\s/.test(line)) return apart
  const decimal = split(line.replaceAll(/(\d),(?=\d)/g, '$1.'), ',')
  return Number.isNaN(heightDeg(words, decimal[1] ?? '')) && apart.length <= 3 ? apart : decimal
}

function split(line: string, delimiter: string): readonly string[] {
  const [cells]: unknown[] = parse(line, { delimiter, relax_column_count: true, relax_quotes: true, trim: true })
  const texts = Array.isArray(cells) ? cells.map(String) : []
  return texts.slice(0, texts.findLastIndex((cell) => cell !== '') + 1)
}

/** The first line is a heading when neither of its first two cells has a figure or is a direction. */
const isHeadingRow = ({ cells: [direction = '', height = ''] }: Row, words: Words): boolean =>
  height !== '' && !/\d/.test(direction + height) && Number.isNaN(bearingDeg(words, direction))

function rowProblems({ line, cells }: Row, words: Words): LineProblem[] {
  const [direction = '', height = '', name = ''] = cells
  const isMuddled = cells.length > 3 || /^\d+([.,]\d+)?$/.test(name)
  if (isMuddled) return [problem(line, 'problem.skyline-cells')]
  const isUnread = Number.isNaN(bearingDeg(words, direction))
  return [
    ...(isUnread ? [problem(line, 'problem.skyline-direction', { direction: shortened(direction) })] : []),
    ...heightProblems(line, height, words),
    ...(name.length > LONGEST_NAME ? [problem(line, 'problem.skyline-name', { maximum: LONGEST_NAME })] : []),
  ]
}

function heightProblems(line: number, height: string, words: Words): LineProblem[] {
  if (height === '') return [problem(line, 'problem.skyline-no-height')]
  const degrees = heightDeg(words, height)
  if (Number.isNaN(degrees)) return [problem(line, 'problem.skyline-height-of', { height: shortened(height) })]
  return degrees > HIGHEST_DEG ? [problem(line, 'problem.skyline-high')] : []
}

const shortened = (text: string): string => (text.length > 30 ? `${text.slice(0, 30)}…` : text)

function sameDirections(rows: readonly Row[], words: Words): LineProblem[] {
  const azimuths = rows.map(({ cells }) => bearingDeg(words, cells[0] ?? ''))
  return rows.flatMap(({ line, cells }, i) => {
    const first = azimuths.indexOf(azimuths[i] ?? Number.NaN)
    return first >= 0 && first < i
      ? [problem(line, 'problem.skyline-twice', { direction: cells[0] ?? '', first: rows[first]?.line ?? 0 })]
      : []
  })
}

const tooMany = (rows: readonly Row[]): LineProblem[] => {
  const over = rows[MOST_CORNERS]
  return over ? [problem(over.line, 'problem.skyline-corners', { count: rows.length, maximum: MOST_CORNERS })] : []
}

function formRow({ cells: [azimuthDeg = '', altitudeDeg = '', name = ''] }: Row): FormValues {
  return { azimuthDeg, altitudeDeg, ...(name === '' ? {} : { name }) }
}

/** The stretches of the compass without a corner, over which the skyline is drawn straight. */
function wideGaps(rows: readonly Row[], words: Words): SkylineNote[] {
  const around = rows
    .map(({ cells: [direction = ''] }) => ({ direction, azimuth: bearingDeg(words, direction) }))
    .sort((a, b) => a.azimuth - b.azimuth)
  const gaps = around.flatMap(({ direction: from, azimuth }, i) => {
    const next = around[(i + 1) % around.length]
    const degrees = wrap360((next?.azimuth ?? 0) - azimuth) || 360
    const values = { from, to: next?.direction ?? from, degrees: words.number(degrees) }
    return degrees > WIDE_DEG ? [words.say('skyline.stretch', values)] : []
  })
  return gaps.length === 0 ? [] : [{ key: 'skyline.gaps', values: { stretches: words.list(gaps) } }]
}

const MOST_TOLD = 100

/** What is wrong with a list as problems of its field, each with its line. */
export function listProblems(problems: readonly LineProblem[], words: Words): Problem[] {
  const told = problems.slice(0, MOST_TOLD).map(({ line, key, values = {} }) => ({
    field: 'skylineList',
    key: 'own.line',
    values: { line, message: words.say(key, values) },
  }))
  const left = problems.length - told.length
  return left > 0 ? [...told, { field: 'skylineList', key: 'own.lines-more', values: { count: left } }] : told
}
