import type { Database } from 'better-sqlite3'
import { separationDeg } from '../server/sky/angles.ts'
import type { StarPlace } from '../server/sky/star.ts'
import { isForTelescopes, type Neighbour, type ObjectHit, type ShowObject, type Story } from '../server/tours/target.ts'
import { foldAlias } from './catalogue/fold.ts'
import { type StoryRow, showObjectOf, storyOf } from './object-rows.ts'
import { byAliasIn, type HitRow, hitOf, objectSearch } from './object-search.ts'

export type ObjectStore = ReturnType<typeof objectStore>

/** A star of the charts: ICRS place and motion at epoch J2000.0, V magnitude, B-V or null where unknown. */
export interface ChartStar extends StarPlace {
  readonly hip: number
  readonly magnitude: number
  readonly bv: number | null
}

const NEAR_DEG = 5

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

  const searched = objectSearch(db, (key) => shown.get(key))

  function search(query: string, limit: number, own: readonly ShowObject[] = []): readonly ObjectHit[] {
    const found = searched(query, limit, own)
    return found.length > 0 ? found : [faintStar(query) ?? []].flat().map(hitOf)
  }

  return {
    /**
     * Up to `limit` hits: things of the host's, then the one that is called exactly so, names that begin so, things of the
     * kind and constellation named, then all the rest; outreach objects first in each, then bright stars. Where nothing
     * answers, words of four letters or more may each have been mistyped.
     */
    search,
    /** What telescopes may be given within 5 degrees of a thing, nearest first; nothing for a thing without a fixed place. */
    near({ key, raDeg, decDeg }: Pick<ObjectHit, 'key' | 'raDeg' | 'decDeg'>, limit: number): readonly Neighbour[] {
      return [...shown.values()]
        .filter((object) => object.key !== key && isForTelescopes(object))
        .flatMap((object) => neighbour(object, raDeg, decDeg))
        .sort((a, b) => a.separationDeg - b.separationDeg)
        .slice(0, limit)
    },
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
    /** What a language calls things, by their names in the catalogue; empty where it has no names of its own. */
    namesIn: (language: string): ReadonlyMap<string, string> =>
      new Map(statements.localNames.all(language).map(({ name, called }) => [name, called])),
    /** The languages in which stories ship. */
    storyLanguages: (): readonly string[] => statements.storyLanguages.all(),
    /** How many stars, outreach objects and towns the catalogue holds. */
    counts: (): { readonly stars: number; readonly outreach: number; readonly places: number } => statements.counts(),
    /** Every star as bright as `limitV` or brighter, brightest first; the catalogue ends at V 8. */
    stars: (limitV: number): readonly ChartStar[] => statements.stars.all(limitV),
  }
}

/** The thing with how far it is from a place, unless that is too far or unknown. */
function neighbour(object: ShowObject, raDeg: number | null, decDeg: number | null): readonly Neighbour[] {
  if (raDeg === null || decDeg === null || object.raDeg === null || object.decDeg === null) return []
  const apartDeg = separationDeg(raDeg, decDeg, object.raDeg, object.decDeg)
  return apartDeg <= NEAR_DEG ? [{ object, separationDeg: apartDeg }] : []
}

function prepare(db: Database) {
  const count = (sql: string): number => db.prepare<[], number>(sql).pluck().get() ?? 0
  return {
    byAlias: byAliasIn(db),
    starHit: db.prepare<[number], HitRow>(
      `SELECT -hip AS id, 'hip' || hip AS key, 'HIP ' || hip AS name, 'star' AS kind, constellation, magnitude,
       ra_deg AS raDeg, dec_deg AS decDeg, 0 AS isOutreach FROM catalogue.star WHERE hip = ?`,
    ),
    shown: db.prepare<[], string>('SELECT show FROM catalogue.entry WHERE show IS NOT NULL ORDER BY id').pluck(),
    story: db.prepare<[string, string], StoryRow>('SELECT * FROM catalogue.story WHERE key = ? AND language = ?'),
    localNames: db.prepare<[string], { readonly name: string; readonly called: string }>(
      'SELECT name, called FROM catalogue.local_name WHERE language = ?',
    ),
    storyLanguages: db.prepare<[], string>('SELECT DISTINCT language FROM catalogue.story ORDER BY language').pluck(),
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
