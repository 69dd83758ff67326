import type { ShowObject } from '../../../server/tours/target.ts'
import type { StarNames, StarRow } from '../rows.ts'
import { type Comparison, type Difference, type Explanation, parted } from './difference.ts'
import { compareNames } from './names.ts'
import { comparePlaces } from './places.ts'
import { type CheckRow, readTable } from './table.ts'

/** What is compared: the outreach list and the names of stars, with what is known of their differences. */
export interface Ours {
  readonly objects: readonly ShowObject[]
  readonly names: ReadonlyMap<number, StarNames>
  readonly stars: ReadonlyMap<number, StarRow>
  readonly explanations: readonly Explanation[]
}

/** A table by its file name. */
interface Table {
  readonly name: string
  readonly text: string
}

const WIDTH = 100

/** The lines for people, table by table, and how many differences nobody has explained. */
export function report(
  ours: Ours,
  tables: readonly Table[],
): { readonly lines: readonly string[]; readonly open: number } {
  const parts = tables.map(({ name, text }) => tableReport(name, ours, readTable(text)))
  return { lines: parts.flatMap(({ lines }) => lines), open: parts.reduce((sum, { open }) => sum + open, 0) }
}

function tableReport(table: string, ours: Ours, rows: readonly CheckRow[]) {
  const isOfPlaces = rows.some(({ raDeg }) => raDeg !== null)
  const { differences, compared, onlyInTable, onlyInList }: Comparison = isOfPlaces
    ? comparePlaces(ours.objects, rows)
    : compareNames(ours.objects, ours.names, ours.stars, rows)
  const { explained, open } = parted(differences, ours.explanations)
  const lines = [
    `${table}: ${rows.length} lines, ${compared} things compared, ${open.length} differ, ${explained.length} explained`,
    ...open.map((difference) => `  DIFFERS    ${said(difference)}`),
    ...explained.map(({ difference, why }) => `  explained  ${said(difference)}: ${why}`),
    ...listed('only in the table', onlyInTable),
    ...listed('only in the list', onlyInList),
  ]
  return { lines, open: open.length }
}

const said = ({ key, name, what, says }: Difference): string => `${key} (${name}) ${what}: ${says}`

/** A heading with the count, and the names in lines that fit a screen. */
function listed(heading: string, names: readonly string[]): readonly string[] {
  const lines: string[] = []
  for (const name of names) {
    const last = lines.at(-1)
    if (last !== undefined && last.length + name.length < WIDTH) lines[lines.length - 1] = `${last}, ${name}`
    else lines.push(name)
  }
  return [`  ${heading}: ${names.length}`, ...lines.map((line) => `    ${line}`)]
}
