import type { Database } from 'better-sqlite3'
import type { StarPlace } from '../server/sky/star.ts'
import type { ObjectHit, ShowObject, Story } from '../server/tours/target.ts'
import { foldAlias } from './catalogue/fold.ts'
import { type StoryRow, showObjectOf, storyOf } from './object-rows.ts'
import { allWords, firstOf, looseWords, phrase, queryWords } from './search.ts'

export type ObjectStore = ReturnType<typeof objectStore>

/** A star of the charts: ICRS place and motion at epoch J2000.0, V magnitude, B-V or null where unknown. */
export interface ChartStar extends StarPlace {
  readonly hip: number
  readonly magnitude: number
  readonly bv: number | null
}

interface HitRow extends Omit<ObjectHit, 'isOutreach'> {
  readonly id: number
  readonly isOutreach: number
}

const HIT = `entry.id, entry.key, entry.name, kind, constellation, magnitude, ra_deg AS raDeg, dec_deg AS decDeg,
  show IS NOT NULL AS isOutreach`

/** The catalogue of sky objects in a database that has it attached. */
export function objectStore(db: Database) {
  const statements = prepare(db)
  const shown = new Map(
    statements.shown
      .all()
      .map((row) => showObjectOf(row))
      .map((object) => [object.key, object]),
  )

  function find(key: string): { readonly canonicalKey: string; readonly object: ShowObject | ObjectHit } | undefined {
    const row = statements.byAlias.get(foldAlias(key)) ?? faintStar(key)
    return row && { canonicalKey: row.key, object: shown.get(row.key) ?? hitOf(row) }
  }

  /** Stars without a name fainter than search goes are still found by their Hipparcos number. */
  function faintStar(key: string): HitRow | undefined {
    const [, hip] = /^hip(\d{1,6})$/.exec(foldAlias(key)) ?? []
    return hip === undefined ? undefined : statements.starHit.get(Number(hip))
  }

  function search(query: string, limit: number): ObjectHit[] {
    const words = queryWords(query)
    if (words.length === 0) return []
    const rows = firstOf(limit, [
      () => statements.byAlias.all(foldAlias(query)),
      (most) => statements.matching.all(`name : ^ ${phrase(words)}`, most),
      (most) => statements.matching.all(`name : (${allWords(words)})`, most),
      (most) => statements.matching.all(allWords(words), most),
    ])
    const found = rows.length > 0 ? rows : statements.matching.all(looseWords(words), limit)
    return (found.length > 0 ? found : [faintStar(query) ?? []].flat()).map(hitOf)
  }

  return {
    /** Up to `limit` hits: the one that is called exactly so, then names that begin so, then all the rest; outreach objects first in each, then bright stars. */
    search,
    /** The object of a key or of any alias, with its canonical key; undefined when nothing is called so. */
    find,
    /** The outreach object of a canonical key, or undefined when the key is not on the list. */
    show: (key: string): ShowObject | undefined => shown.get(key),
    /** The whole outreach list, most appealing first. */
    outreach: (): readonly ShowObject[] => [...shown.values()],
    /** What is said of a thing in a language, or undefined. */
    story(key: string, language: string): Story | undefined {
      const row = statements.story.get(key, language)
      return row && storyOf(row)
    },
    /** How many stars, outreach objects and towns the catalogue holds. */
    counts: (): { readonly stars: number; readonly outreach: number; readonly places: number } => statements.counts(),
    /** Every star as bright as `limitV` or brighter, brightest first; the catalogue ends at V 8. */
    stars: (limitV: number): readonly ChartStar[] => statements.stars.all(limitV),
  }
}

function hitOf({ id: _id, isOutreach, ...hit }: HitRow): ObjectHit {
  return { ...hit, isOutreach: isOutreach === 1 }
}

function prepare(db: Database) {
  const count = (sql: string): number => db.prepare<[], number>(sql).pluck().get() ?? 0
  return {
    byAlias: db.prepare<[string], HitRow>(
      `SELECT ${HIT} FROM catalogue.alias JOIN catalogue.entry ON entry.id = entry_id WHERE folded = ?`,
    ),
    matching: db.prepare<[string, number], HitRow>(
      `SELECT ${HIT} FROM catalogue.entry_text JOIN catalogue.entry ON entry.id = entry_text.rowid
       WHERE entry_text MATCH ? ORDER BY entry_text.rowid LIMIT ?`,
    ),
    starHit: db.prepare<[number], HitRow>(
      `SELECT -hip AS id, 'hip' || hip AS key, 'HIP ' || hip AS name, 'star' AS kind, constellation, magnitude,
       ra_deg AS raDeg, dec_deg AS decDeg, 0 AS isOutreach FROM catalogue.star WHERE hip = ?`,
    ),
    shown: db.prepare<[], string>('SELECT show FROM catalogue.entry WHERE show IS NOT NULL ORDER BY id').pluck(),
    story: db.prepare<[string, string], StoryRow>('SELECT * FROM catalogue.story WHERE key = ? AND language = ?'),
    stars: db.prepare<[number], ChartStar>(
      `SELECT hip, ra_deg AS raDeg, dec_deg AS decDeg, pm_ra_mas_yr AS pmRaMasYr, pm_dec_mas_yr AS pmDecMasYr,
       parallax_mas AS parallaxMas, magnitude, bv FROM catalogue.star WHERE magnitude <= ? ORDER BY magnitude, hip`,
    ),
    counts: () => ({
      stars: count('SELECT count(*) FROM catalogue.star'),
      outreach: count('SELECT count(*) FROM catalogue.entry WHERE show IS NOT NULL'),
      places: count('SELECT count(*) FROM catalogue.place'),
    }),
  }
}
