import { CsvError, parse } from 'csv-parse/sync'
import type { Problem } from '../../errors.ts'
import { isOwnColumn, type LineProblem, OWN_COLUMNS, type OwnColumn } from '../pages/own-columns.ts'
import type { FormValues } from './form-values.ts'

/** Those without which nothing can be entered. */
const NEEDED_COLUMNS: readonly OwnColumn[] = ['name', 'kind', 'magnitude']

const MOST_ROWS = 500
/** A million letters of a list, which a form may write with three signs each. */
export const MOST_LETTERS = 1_000_000
export const IMPORT_LIMIT = 3 * MOST_LETTERS + 4096

/** One thing of a list: the line on which it stands, and its texts by field. */
export interface CsvRow {
  readonly line: number
  readonly values: FormValues
}

interface Read {
  readonly rows: readonly CsvRow[]
  readonly problems: readonly LineProblem[]
}

type Line = readonly [line: number, cells: readonly string[]]

/** The things of a list with a header of `OWN_COLUMNS` in any order; the cells are parted by commas, semicolons or tabs, as the header is. */
export function readOwnCsv(text: string): Read {
  if (text.length > MOST_LETTERS) return wrong(1, '', 'problem.csv-large', { maximum: MOST_LETTERS })
  const lines = linesOf(text)
  if ('problems' in lines) return lines
  const [header, ...rows] = lines
  if (header === undefined) return wrong(1, '', 'problem.csv-empty')
  if (rows.length > MOST_ROWS) return wrong(rows[MOST_ROWS]?.[0] ?? 1, '', 'problem.csv-rows', { maximum: MOST_ROWS })
  const [line, names] = header
  const columns = names.map((name) => name.toLowerCase().replaceAll(/[\s-]+/g, '_'))
  const problems = headerProblems(line, names, columns)
  if (problems.length > 0) return { rows: [], problems }
  if (rows.length === 0) return wrong(line, '', 'problem.csv-no-rows')
  return {
    rows: rows.map(([at, cells]) => ({ line: at, values: valuesOf(columns, cells) })),
    problems: rows.flatMap(([at, cells]) => strayCells(at, columns, cells)),
  }
}

const wrong = (line: number, column: string, key: string, values: Problem['values'] = {}): Read => ({
  rows: [],
  problems: [{ line, column, key, values }],
})

function linesOf(text: string): readonly Line[] | Read {
  try {
    const records: unknown = parse(text, {
      bom: true,
      delimiter: delimiterOf(text),
      info: true,
      relax_column_count: true,
      relax_quotes: true,
      skip_empty_lines: true,
      skip_records_with_empty_values: true,
      trim: true,
    })
    return Array.isArray(records) ? records.map(lineOf) : []
  } catch (error) {
    if (!(error instanceof CsvError)) throw error
    return wrong(typeof error.lines === 'number' ? error.lines : 1, '', 'problem.csv-quotes')
  }
}

const lineOf = ({ info, record }: { info: { lines: number }; record: string[] }): Line => [info.lines, record]

const DELIMITERS = [',', ';', '\t']

/** Whichever of the three stands most often in the first line that is not empty. */
function delimiterOf(text: string): string {
  const [header = ''] = /\S.*/.exec(text) ?? []
  const counts = DELIMITERS.map((delimiter) => header.split(delimiter).length)
  return DELIMITERS[counts.indexOf(Math.max(...counts))] ?? ','
}

/** What stands in the place of a name may be anything. */
const shortened = (name: string): string => (name.length > 40 ? `${name.slice(0, 40)}…` : name)

function headerProblems(line: number, names: readonly string[], columns: readonly string[]): LineProblem[] {
  return [
    ...columns.flatMap((column, i) => {
      if (column !== '' && !isOwnColumn(column))
        return [{ line, column: shortened(names[i] ?? column), key: 'problem.column-unknown' }]
      return column !== '' && columns.indexOf(column) < i ? [{ line, column, key: 'problem.column-twice' }] : []
    }),
    ...NEEDED_COLUMNS.filter((column) => !columns.includes(column)).map((column) => ({
      line,
      column,
      key: 'problem.column-missing',
    })),
  ]
}

function valuesOf(columns: readonly string[], cells: readonly string[]): FormValues {
  const texts = columns.flatMap((column, i) =>
    isOwnColumn(column) ? [[OWN_COLUMNS[column], cells[i] ?? ''] as const] : [],
  )
  const values: FormValues = Object.fromEntries(texts)
  return { ...values, kind: (values.kind ?? '').toLowerCase().replaceAll(/[\s_]+/g, '-') }
}

/** Text under no column: a comma too many in the line, most likely. */
const strayCells = (line: number, columns: readonly string[], cells: readonly string[]): LineProblem[] =>
  cells.some((cell, i) => cell !== '' && (columns[i] ?? '') === '')
    ? [{ line, column: '', key: 'problem.cells-many', values: { columns: columns.length } }]
    : []
