import { csvRows } from './csv.ts'

/** A star to V 8: ICRS place and motion at epoch J2000.0; motion and parallax are 0 for the many whose motion no eye would notice. */
export interface StarRow {
  readonly hip: number
  readonly raDeg: number
  readonly decDeg: number
  readonly pmRaMasYr: number
  readonly pmDecMasYr: number
  readonly parallaxMas: number
  readonly magnitude: number
  readonly bv: number | null
  /** IAU three-letter code. */
  readonly constellation: string
}

/** What a star is called: parts are '' where it has no such name. `constellation` is the one its designation names. */
export interface StarNames {
  readonly name: string
  readonly constellation: string
  readonly bayer: string
  readonly flamsteed: string
  readonly variable: string
  readonly nearby: string
  readonly hd: string
}

export interface ConstellationRow {
  readonly code: string
  readonly name: string
  readonly genitive: string
}

const NO_NAMES: StarNames = { name: '', constellation: '', bayer: '', flamsteed: '', variable: '', nearby: '', hd: '' }
const AT_REST = { pmRaMasYr: 0, pmDecMasYr: 0, parallaxMas: 0 } as const

/** Every star to V 8 by Hipparcos number, the fast and the bright ones with their motion. */
export function starRows(): ReadonlyMap<number, StarRow> {
  const motions = new Map(
    csvRows('motions.csv').map(([hip, ra, dec, parallax]) => [
      Number(hip),
      { pmRaMasYr: Number(ra), pmDecMasYr: Number(dec), parallaxMas: Number(parallax) },
    ]),
  )
  return new Map(
    csvRows('stars.csv').map(([id, ra, dec, v, bv, constellation = '']) => {
      const hip = Number(id)
      const place = { raDeg: Number(ra), decDeg: Number(dec), ...(motions.get(hip) ?? AT_REST) }
      return [hip, { hip, ...place, magnitude: Number(v), bv: bv === '' ? null : Number(bv), constellation }]
    }),
  )
}

/** The names of every star that has one, by Hipparcos number. */
export function starNames(): ReadonlyMap<number, StarNames> {
  const names = new Map<number, StarNames>()
  for (const [hip, constellation = '', bayer = '', flamsteed = '', variable = '', nearby = '', hd = ''] of csvRows(
    'designations.csv',
  )) {
    names.set(Number(hip), { name: '', constellation, bayer, flamsteed, variable, nearby, hd })
  }
  for (const [hip, name = ''] of csvRows('names.csv')) {
    names.set(Number(hip), { ...(names.get(Number(hip)) ?? NO_NAMES), name })
  }
  return names
}

/** The 88 constellations by code. */
export const constellationRows = (): ReadonlyMap<string, ConstellationRow> =>
  new Map(
    csvRows('constellations.csv').map(([code = '', name = '', genitive = '']) => [code, { code, name, genitive }]),
  )
