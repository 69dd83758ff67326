import { parse } from 'csv-parse/sync'
import { foldAlias } from '../fold.ts'

/** One line of a table to compare with; null where the table says nothing. */
export interface CheckRow {
  /** Every way the line names its thing, as it stands there. */
  readonly ids: readonly string[]
  readonly hip: number | null
  /** The proper name. */
  readonly name: string | null
  readonly raDeg: number | null
  readonly decDeg: number | null
  readonly angleDeg: number | null
  readonly constellation: string | null
}

type Part = 'hip' | 'id' | 'name' | 'raDeg' | 'decDeg' | 'angleDeg' | 'constellation'

/** What a heading means, letters alone; the first that fits counts. */
const HEADINGS: readonly (readonly [Part, RegExp])[] = [
  ['hip', /^hip(parcos)?(id|no|number)?$/],
  ['raDeg', /^(ra|rightascension)(j?2000|icrs)?(deg|degrees)?(j?2000|icrs)?$/],
  ['decDeg', /^(de|dec|declination)(j?2000|icrs)?(deg|degrees)?(j?2000|icrs)?$/],
  ['angleDeg', /^(pa|angle|posang|positionangle)(deg|degrees)?$/],
  ['constellation', /^(con|const|constellation)$/],
  ['name', /name/],
  ['id', /^(id|ids|key|object|identifier|designation|messier|ngc)$/],
]
const EMPTY = /^[-_—]?$/

/** The lines of a CSV text whose headings are known by their words; throws an Error that says what a table must have. */
export function readTable(text: string): readonly CheckRow[] {
  const [header = [], ...rows]: string[][] = parse(text, { skip_empty_lines: true, bom: true, trim: true })
  const parts = header.map(partOf)
  const has = (part: Part): boolean => parts.includes(part)
  if (!(has('hip') && has('name')) && !((has('id') || has('name')) && has('raDeg') && has('decDeg')))
    throw new Error('A table needs a name or id with ra and dec in degrees, or hip with a name')
  return rows.map((cells, index) => {
    const all = (part: Part): readonly string[] => cells.filter((cell, i) => parts[i] === part && !EMPTY.test(cell))
    const number = (part: Part): number | null => numberOf(all(part)[0], `line ${index + 2}: ${part}`)
    const names = all('name')
    return {
      ids: [...all('id'), ...names],
      hip: number('hip'),
      name: names[0] ?? null,
      raDeg: number('raDeg'),
      decDeg: number('decDeg'),
      angleDeg: number('angleDeg'),
      constellation: all('constellation')[0] ?? null,
    }
  })
}

/** A designation as it is compared: `M 1`, `m1` and `M001` are one. */
export const plainId = (id: string): string => foldAlias(id).replace(/(\D)0+(?=\d)/g, '$1')

function partOf(heading: string): Part | undefined {
  const plain = heading.toLowerCase().replace(/[^a-z0-9]/g, '')
  return HEADINGS.find(([, pattern]) => pattern.test(plain))?.[0]
}

function numberOf(cell: string | undefined, where: string): number | null {
  if (cell === undefined) return null
  const value = Number(cell)
  if (!Number.isFinite(value)) throw new Error(`${where} is "${cell}", which is no number in degrees`)
  return value
}
