import { separationDeg } from '../../../server/sky/angles.ts'
import type { ObjectKind, ShowObject } from '../../../server/tours/target.ts'
import type { Comparison, Difference } from './difference.ts'
import { type CheckRow, plainId } from './table.ts'

const COMPACT_ARCMIN = 3
const LARGE_GALAXY_ARCMIN = 15
const EXTENDED: readonly ObjectKind[] = ['open-cluster', 'nebula', 'remnant', 'asterism']
const ELONGATED = 1.3
const ANGLE_DEG = 15

interface Placed {
  readonly row: CheckRow
  readonly arcmin: number
}

/** The list beside a table of places: each thing with the nearest of the lines that name it. */
export function comparePlaces(objects: readonly ShowObject[], rows: readonly CheckRow[]): Comparison {
  const byId = new Map(objects.flatMap((object) => aliasesOf(object).map((alias) => [alias, object] as const)))
  const found = new Map<ShowObject, CheckRow[]>()
  const onlyInTable: string[] = []
  for (const row of rows) {
    const object = row.ids.map((id) => byId.get(plainId(id))).find((it) => it !== undefined)
    if (object === undefined)
      onlyInTable.push([...new Map(row.ids.map((id) => [plainId(id), id])).values()].join(' = '))
    else found.set(object, [...(found.get(object) ?? []), row])
  }
  const kinds = new Set([...found.keys()].map(({ kind }) => kind))
  return {
    differences: [...found].flatMap(([object, lines]) => differencesOf(object, lines)),
    compared: found.size,
    onlyInTable,
    onlyInList: objects.filter((object) => kinds.has(object.kind) && !found.has(object)).map(({ key }) => key),
  }
}

const aliasesOf = ({ key, name, designations }: ShowObject): readonly string[] =>
  [key, name, ...designations].map(plainId)

function differencesOf(object: ShowObject, rows: readonly CheckRow[]): readonly Difference[] {
  const { key, name } = object
  const [nearest] = rows.flatMap((row) => placed(object, row)).sort((a, b) => a.arcmin - b.arcmin)
  if (nearest === undefined) return []
  const told: readonly (readonly [Difference['what'], string | undefined])[] = [
    ['place', placeSays(object, nearest)],
    ['name', nameSays(object, nearest.row)],
    ['angle', angleSays(object, nearest.row)],
    ['constellation', constellationSays(object, nearest.row)],
  ]
  return told.flatMap(([what, says]) => (says === undefined ? [] : [{ key, name, what, says }]))
}

function placed(object: ShowObject, row: CheckRow): readonly Placed[] {
  if (object.raDeg === null || object.decDeg === null || row.raDeg === null || row.decDeg === null) return []
  return [{ row, arcmin: 60 * separationDeg(object.raDeg, object.decDeg, row.raDeg, row.decDeg) }]
}

/** How far a place may be off: a thing with an extent of its own has no single centre. */
export function allowedArcmin({ kind, majorArcmin }: ShowObject): number {
  const major = majorArcmin ?? 0
  const isExtended = EXTENDED.includes(kind) || (kind === 'galaxy' && major >= LARGE_GALAXY_ARCMIN)
  return isExtended ? Math.max(COMPACT_ARCMIN, major / 3) : COMPACT_ARCMIN
}

function placeSays(object: ShowObject, { row, arcmin }: Placed): string | undefined {
  const allowed = allowedArcmin(object)
  if (arcmin <= allowed) return undefined
  return `${arcmin.toFixed(1)}' from the table's ${row.raDeg}, ${row.decDeg} (${allowed.toFixed(1)}' allowed)`
}

/** A number of the same list that is another one: `NGC 1952` beside `NGC 1953`. */
function nameSays(object: ShowObject, { ids }: CheckRow): string | undefined {
  const aliases = aliasesOf(object)
  const listOf = (alias: string): string | undefined => /^([a-z]+)\d+[a-z]?$/.exec(alias)?.[1]
  const lists = new Set(aliases.map(listOf))
  const strange = ids.find((id) => !aliases.includes(plainId(id)) && lists.has(listOf(plainId(id)) ?? ''))
  return strange === undefined ? undefined : `the table calls it ${strange} as well`
}

function angleSays({ angleDeg, majorArcmin, minorArcmin }: ShowObject, row: CheckRow): string | undefined {
  if (angleDeg === null || row.angleDeg === null || majorArcmin === null || minorArcmin === null) return undefined
  if (majorArcmin / minorArcmin <= ELONGATED) return undefined
  const turnDeg = Math.abs(angleDeg - row.angleDeg) % 180
  const apartDeg = Math.min(turnDeg, 180 - turnDeg)
  return apartDeg <= ANGLE_DEG ? undefined : `lies at ${angleDeg}°, in the table at ${row.angleDeg}°`
}

function constellationSays({ constellation }: ShowObject, row: CheckRow): string | undefined {
  if (constellation === null || row.constellation === null || constellation === row.constellation) return undefined
  return `stands in ${constellation}, in the table in ${row.constellation}`
}
