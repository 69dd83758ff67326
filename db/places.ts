import type { Database } from 'better-sqlite3'
import type { Town } from '../server/tours/site.ts'
import { foldAlias } from './catalogue/fold.ts'
import { firstOf, looseTerms, matchOf, queryWords, startTerms, wordTerms } from './search.ts'

export type PlaceStore = ReturnType<typeof placeStore>

interface TownRow extends Town {
  readonly id: number
}

const COLUMNS = `place.id, place.name, place.country, place.region, latitude_deg AS latitudeDeg,
  longitude_deg AS longitudeDeg, height_m AS heightM, zone`

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

  return {
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
      return rows.map(({ id: _id, ...town }) => town)
    },
  }
}
