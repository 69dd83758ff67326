import type { Database } from 'better-sqlite3'
import type { StarPlace } from '../server/sky/star.ts'

export type StarStore = ReturnType<typeof starStore>

/** Places and motions of single stars, in a database that has the catalogue attached. */
export function starStore(db: Database) {
  const byHip = db.prepare<[number], StarPlace>(
    `SELECT ra_deg AS raDeg, dec_deg AS decDeg, pm_ra_mas_yr AS pmRaMasYr, pm_dec_mas_yr AS pmDecMasYr,
     parallax_mas AS parallaxMas FROM catalogue.star WHERE hip = ?`,
  )
  return {
    /** Where the star of a key such as `hip91262` stands and how it moves; undefined for any other key. */
    find(key: string): StarPlace | undefined {
      const [, hip] = /^hip(\d{1,6})$/.exec(key) ?? []
      return hip === undefined ? undefined : byHip.get(Number(hip))
    },
  }
}
