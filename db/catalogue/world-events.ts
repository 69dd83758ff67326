import { existsSync } from 'node:fs'
import { type Static, Type } from 'typebox'
import { Value } from 'typebox/value'
import type { WorldEvent } from '../../server/tours/light-left.ts'
import { type OutreachFile, outreachFile, readRows } from './outreach-file.ts'
import { sourceClass } from './outreach-sources.ts'

const OLDEST_YEAR = -300_000_000
const year = Type.Integer({ minimum: OLDEST_YEAR, maximum: 2100 })
const EventRow = Type.Object(
  {
    fromYear: year,
    toYear: year,
    // It ends a sentence of 20 words at most that began with the year, so it has no full stop of its own.
    what: Type.String({ minLength: 8, maxLength: 90, pattern: '^\\S.*[^.?!\\s]$' }),
    place: Type.String({ minLength: 4, maxLength: 30 }),
    source: Type.String({ minLength: 1 }),
  },
  { additionalProperties: false },
)
type EventRow = Static<typeof EventRow>

const NUMBERS = ['fromYear', 'toYear']

/** What happened on Earth when light set out, in a language, as it ships; [] in a language in which nothing is written. */
export function readWorldEvents(language: string): readonly WorldEvent[] {
  const name = `world-events.${language}.csv`
  return existsSync(new URL(`./outreach/${name}`, import.meta.url)) ? worldEventsOf(outreachFile(name)) : []
}

/** The events of one file in its order; throws an Error that names file and line for the first row that does not hold. */
const worldEventsOf = (file: OutreachFile): readonly WorldEvent[] => readRows(file, eventOf)

function eventOf(cells: Readonly<Record<string, string>>): EventRow {
  const row = checked(
    Object.fromEntries(
      Object.entries(cells).map(([column, cell]) => [column, NUMBERS.includes(column) ? Number(cell) : cell]),
    ),
  )
  if (row.toYear < row.fromYear) throw new Error('toYear lies before fromYear')
  if (sourceClass(row.source) === null) throw new Error(`source "${row.source}" is not one this list knows`)
  return row
}

function checked(row: unknown): EventRow {
  if (Value.Check(EventRow, row)) return row
  const [error] = Value.Errors(EventRow, row)
  throw new Error(`${error?.instancePath.split('/')[1] ?? 'row'} ${error?.message}`)
}
