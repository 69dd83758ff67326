import type { GoodNowInput } from './good-now.ts'
import type { GridStation } from './grid.ts'
import { cellInput, cellOf } from './grid-cells.ts'
import { rowOf } from './grid-parts.ts'
import { isInForce, isNamed } from './limits.ts'
import type { Station } from './night.ts'
import { targetAt } from './sky-at.ts'
import { skyPartOf } from './sky-part.ts'
import type { Aim, ShowObject } from './target.ts'
import type { Telescope } from './telescope.ts'
import type { Remark } from './tour.ts'
import { type People, peopleAt } from './visitors.ts'

/** The question with the telescope that it is about, and its place among those of the row. */
export interface Scope {
  readonly input: GoodNowInput
  readonly place: number
  readonly inRow: GridStation
  readonly station: Station
  readonly telescope: Telescope
  readonly people: People
}

/** One view of a thing; `column` is its number in the table of chances, null for a thing of which too little is known. */
interface View {
  readonly object: ShowObject
  readonly targetIndex: number
  readonly aim: Aim
  readonly column: number | null
}

/** A view with what a look at it is worth in the next quarter hour, and what speaks against it all the same. */
export interface Weighed extends View {
  readonly worth: number
  readonly but: Remark | null
}

const QUARTER_MS = 900_000

/** The telescope that is asked about; null for a station that is none. */
export function scopeOf(input: GoodNowInput): Scope | null {
  const { night, chance, stationId } = input
  const row = rowOf(night, chance.stationIds)
  const place = row.findIndex(({ id }) => id === stationId)
  const [inRow, station] = [row[place], night.stations.find(({ id }) => id === stationId)]
  if (inRow === undefined || station === undefined) return null
  return { input, place, inRow, station, telescope: inRow.telescope, people: peopleAt(night, input.at) }
}

/** Every view of some things of the list. */
export function viewsOf({ input: { objects, sky, chance } }: Scope, keys: readonly string[]): readonly View[] {
  const things = new Map(objects.map((object) => [object.key, object]))
  return keys.flatMap((key): View[] => {
    const object = things.get(key)
    const targetIndex = sky.targetKeys.indexOf(key)
    if (object === undefined || targetIndex < 0) return []
    const views = chance.candidates.flatMap((candidate, column) =>
      candidate.targetIndex === targetIndex ? [{ object, targetIndex, aim: candidate.aim, column }] : [],
    )
    return views.length > 0 ? views : [{ object, targetIndex, aim: 'whole', column: null }]
  })
}

/** Worth 0 says that it is not well placed, or not seen by most, for the whole of the next quarter hour. */
export function weigh({ input, place, inRow, people }: Scope, view: View): Weighed {
  const { at } = input
  const ask = view.column === null ? null : cellInput(input, inRow, place, view.column, view.object)
  const cell = ask && cellOf(ask, at, new Date(at.getTime() + QUARTER_MS), people)
  return { ...view, worth: cell?.worth ?? 0, but: barred(input, view) ?? taken(input, view) ?? clouded(input, view) }
}

/** The host's word that a thing is not to be shown here now. */
function barred({ night, wishes, stationId, at }: GoodNowInput, { object, aim }: View): Remark | null {
  const candidate = { targetKey: object.key, aim, kind: object.kind }
  const untilAt = new Date(at.getTime() + QUARTER_MS)
  const isBarred = wishes.some(
    (wish) =>
      wish.kind === 'bar' &&
      (wish.stationId === null || wish.stationId === stationId) &&
      isNamed(wish, candidate) &&
      isInForce(wish, night, at, untilAt),
  )
  return isBarred ? { code: 'now.barred' } : null
}

/** A neighbour that shows it, where it is at no more telescopes at once. */
function taken({ night, row, stationId }: GoodNowInput, { object }: View): Remark | null {
  const others = row.filter((shown) => shown.targetKey === object.key && shown.stationId !== stationId)
  const first = night.stations.find(({ id }) => id === others[0]?.stationId)
  if (others.length < object.atOnce || first === undefined) return null
  return { code: 'now.taken', values: { station: first.name } }
}

function clouded({ sky, at, shut }: GoodNowInput, { targetIndex }: View): Remark | null {
  return shut.includes(skyPartOf(targetAt(sky, targetIndex, at))) ? { code: 'now.clouded' } : null
}
