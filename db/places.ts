import type { Database } from 'better-sqlite3'
import type { Town } from '../server/tours/site.ts'
import { foldAlias } from './catalogue/fold.ts'
import { isOneSlipFrom, mayBeMistyped } from './catalogue/spelling.ts'
import { firstOf, looseTerms, matchOf, queryWords, startTerms, wordTerms } from './search.ts'

export type PlaceStore = ReturnType<typeof placeStore>

interface TownRow extends Town {
  readonly id: number
}

const COLUMNS = `place.id, place.name, place.country, place.region, latitude_deg AS latitudeDeg,
  longitude_deg AS longitudeDeg, height_m AS heightM, zone`

const LONGEST_NAME = 80
const townOf = ({ id: _id, ...town }: TownRow): Town => town

/** The offline gazetteer of a database with the catalogue attached. */
export function placeStore(db: Database) {
  const named = db.prepare<[string, number], TownRow>(
    `SELECT ${COLUMNS} FROM catalogue.place_name JOIN catalogue.place ON place.id = place_id
     WHERE folded = ? ORDER BY place_id LIMIT ?`,
  )
  const matching = db.prepare<[string, number], TownRow>(
    `SELECT ${COLUMNS} FROM catalogue.place_text JOIN catalogue.place ON place.id = place_text.rowid
     WHERE place_text MATCH ? ORDER BY place_text.rowid LIMIT ?`,
  )
  const beginning = db.prepare<[string, string, number, number], { readonly folded: string; readonly id: number }>(
    `SELECT folded, place_id AS id FROM catalogue.place_name
     WHERE folded >= ? AND folded < ? AND length(folded) BETWEEN ? AND ?`,
  )
  const byId = db.prepare<[number], TownRow>(`SELECT ${COLUMNS} FROM catalogue.place WHERE place.id = ?`)

  return {
    /** Up to `limit` towns that are called exactly so in some language, larger ones first. */
    named: (query: string, limit: number): Town[] => named.all(foldAlias(query), limit).map(townOf),
    /** Up to `limit` towns whose name is one slip of typing away, begins with the same letter and is about as long, larger ones first. */
    near(query: string, limit: number): Town[] {
      const folded = foldAlias(query.slice(0, LONGEST_NAME))
      if (!mayBeMistyped(folded)) return []
      const first = folded.charAt(0)
      const rows = beginning.all(first, `${first}\u{10ffff}`, folded.length - 1, folded.length + 1)
      const alike = rows.filter((row) => isOneSlipFrom(folded, row.folded))
      const ids = [...new Set(alike.map(({ id }) => id))].sort((a, b) => a - b)
      return ids
        .slice(0, limit)
        .flatMap((id) => byId.all(id))
        .map(townOf)
    },
    /** Up to `limit` towns: those called exactly so first, then those whose name begins so, then those with all the words (region and country count); larger ones first. */
    search(query: string, limit: number): Town[] {
      const words = queryWords(query)
      if (words.length === 0) return []
      const rows = firstOf(limit, [
        (most) => named.all(foldAlias(query), most),
        (most) => matching.all(matchOf(startTerms(words)), most),
        (most) => matching.all(matchOf(wordTerms(words)), most),
        (most) => matching.all(matchOf(looseTerms(words)), most),
      ])
      return rows.map(townOf)
    },
  }
}
