import { ownHit } from '../../db/object-search.ts'
import type { Site } from '../tours/site.ts'
import type { ShowObject } from '../tours/target.ts'
import type { Desk } from './desk.ts'
import type { ListedThing, Seasonal, ThingList, ThingQuery } from './thing-kinds.ts'
import type { MonthShelf } from './thing-shelf.ts'

interface Needs {
  readonly shelf: MonthShelf
  readonly site: Site
  readonly month: string
  readonly search: Desk['objects']['search']
}

const MOST_HITS = 200

/** A page of the list in the order in which to show it, or of what a search answers in the order of the search. */
export async function thingList({ shelf, site, month, search }: Needs, query: ThingQuery): Promise<ThingList> {
  const { telescopes, isDark, things } = await shelf.all({ site, month })
  const objects = new Map(shelf.objects().map((object) => [object.key, object]))
  const seasonals = new Map(things.map((seasonal) => [seasonal.key, seasonal]))
  const text = query.text.trim()
  const hits = text === '' ? [...objects.values()].map(ownHit) : search(text, MOST_HITS)
  const listed = hits.map((hit) => ({
    hit,
    object: objects.get(hit.key) ?? null,
    seasonal: seasonals.get(hit.key) ?? null,
  }))
  const found = listed.filter((thing) => isAskedFor(thing, query))
  const ordered = text === '' ? found.toSorted(byWorth) : found
  const pages = Math.max(1, Math.ceil(ordered.length / query.perPage))
  const page = Math.min(pages, query.page)
  const first = (page - 1) * query.perPage
  const shown = ordered.slice(first, first + query.perPage)
  const constellations = [...new Set([...objects.values()].flatMap(({ constellation }) => constellation ?? []))]
  return { site, month, telescopes, isDark, total: ordered.length, page, pages, things: shown, constellations }
}

function isAskedFor({ hit, seasonal }: ListedThing, { kind, constellation, evening, isGoodOnly }: ThingQuery): boolean {
  if (kind !== null && hit.kind !== kind) return false
  if (constellation !== null && hit.constellation !== constellation) return false
  if (evening !== null && !seasonal?.season.months.includes(evening)) return false
  return !isGoodOnly || seasonal?.isGood === true
}

/** Delight times the chance to see it; of equals the more delightful first. */
const byWorth = (a: ListedThing, b: ListedThing): number =>
  worthOf(b.object, b.seasonal) - worthOf(a.object, a.seasonal) || (b.object?.appeal ?? 0) - (a.object?.appeal ?? 0)

const worthOf = (object: ShowObject | null, seasonal: Seasonal | null): number =>
  (object?.appeal ?? 0) * (seasonal?.chance ?? 0)
