import type { Database } from 'better-sqlite3'
import { radians, separationDeg } from '../server/sky/angles.ts'
import type { StarPlace } from '../server/sky/star.ts'
import type { ChartStar } from './objects.ts'

export type StarStore = ReturnType<typeof starStore>

const HIP_KEY = /^hip(\d{1,6})$/
const CHART = `hip, ra_deg AS raDeg, dec_deg AS decDeg, pm_ra_mas_yr AS pmRaMasYr, pm_dec_mas_yr AS pmDecMasYr,
  parallax_mas AS parallaxMas, magnitude, bv`

/** A round field of the sky, in degrees, and its faintest stars. */
interface StarField {
  readonly raDeg: number
  readonly decDeg: number
  readonly radiusDeg: number
  readonly limitV: number
}

interface Box {
  readonly southDeg: number
  readonly northDeg: number
  readonly raDeg: number
  readonly halfDeg: number
  readonly limitV: number
}

const BRIGHT_V = 5

/** The part of the sky between two parallels and two meridians that holds the whole of a field. */
function boxAround({ raDeg, decDeg, radiusDeg, limitV }: StarField): Box {
  const [southDeg, northDeg] = [decDeg - radiusDeg, decDeg + radiusDeg]
  const edgeDeg = Math.max(Math.abs(southDeg), Math.abs(northDeg))
  const halfDeg = edgeDeg >= 90 ? 180 : Math.min(180, radiusDeg / Math.cos(radians(edgeDeg)))
  return { southDeg, northDeg, raDeg, halfDeg, limitV }
}

/** Single stars of the star table, in a database that has the catalogue attached. */
export function starStore(db: Database) {
  const byHip = db.prepare<[number], StarPlace>(
    `SELECT ra_deg AS raDeg, dec_deg AS decDeg, pm_ra_mas_yr AS pmRaMasYr, pm_dec_mas_yr AS pmDecMasYr,
     parallax_mas AS parallaxMas FROM catalogue.star WHERE hip = ?`,
  )
  const charted = db.prepare<[number], ChartStar>(`SELECT ${CHART} FROM catalogue.star WHERE hip = ?`)
  // A plus sign keeps a column from being looked up by its index: few stars are bright, and few lie in a narrow band.
  const near = (bySky: '' | '+', byLight: '' | '+') =>
    db.prepare<[Box], ChartStar>(
      `SELECT ${CHART} FROM catalogue.star
       WHERE ${bySky}dec_deg BETWEEN @southDeg AND @northDeg AND ${byLight}magnitude <= @limitV
         AND (abs(ra_deg - @raDeg) <= @halfDeg OR abs(ra_deg - @raDeg) >= 360 - @halfDeg)
       ORDER BY +magnitude, hip`,
    )
  const [ofBand, ofBright] = [near('', '+'), near('+', '')]
  const others = db.prepare<[string], string>('SELECT others FROM catalogue.entry WHERE key = ?').pluck()
  const ofKey = <Found>(key: string, find: (hip: number) => Found | undefined): Found | undefined => {
    const [, hip] = HIP_KEY.exec(key) ?? []
    return hip === undefined ? undefined : find(Number(hip))
  }

  return {
    /** Where the star of a key such as `hip91262` stands and how it moves; undefined for any other key. */
    find: (key: string): StarPlace | undefined => ofKey(key, (hip) => byHip.get(hip)),
    /** The same with its light; undefined for any other key. */
    chart: (key: string): ChartStar | undefined => ofKey(key, (hip) => charted.get(hip)),
    /** The stars of these Hipparcos numbers in their order; what the table lacks is left out. */
    ofHips: (hips: readonly number[]): readonly ChartStar[] => hips.flatMap((hip) => charted.get(hip) ?? []),
    /** Stars no farther from a place of the sky than a radius, as faint as `limitV` at most, brightest first. */
    around(field: StarField): readonly ChartStar[] {
      const stars = (field.limitV < BRIGHT_V ? ofBright : ofBand).all(boxAround(field))
      const { raDeg, decDeg, radiusDeg } = field
      return stars.filter((star) => separationDeg(raDeg, decDeg, star.raDeg, star.decDeg) <= radiusDeg)
    },
    /** The other names of anything that search knows, as people write them; [] where it has none. */
    otherNames: (key: string): readonly string[] => (others.get(key) ?? '').split('; ').filter((name) => name !== ''),
  }
}
