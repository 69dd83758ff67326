import type { Desk } from '../../server/desk/desk.ts'
import type { StartDesk, StartPlace } from '../../server/desk/start.ts'
import type { Pages } from '../../server/web/pages/index.ts'
import { ASSUMED_NOTE } from '../../server/web/pages/kit-note.ts'
import { startPage } from '../../server/web/pages/start.ts'
import { startMadePage } from '../../server/web/pages/start-made.ts'
import { A_NIGHT, A_SITE, A_TELESCOPE } from './field-data.ts'
import { HOST, TOUR, VISITOR } from './page-data.ts'

const placeAt = (name: string, region: string, longitudeDeg: number): StartPlace => ({
  name,
  region,
  country: 'Nowhere',
  latitudeDeg: 48,
  longitudeDeg,
  heightM: 500,
  zone: 'Europe/Berlin',
  siteId: null,
})

export const TWO_TOWNS = [placeAt('Anytown', 'North', 11), placeAt('Anytown', 'South', 12)]

/** Knows one town, and two of one name; makes the first night of all again. */
export const fakeStart = (nights: Pick<Desk['nights'], 'all' | 'find'>): StartDesk => ({
  places: (said) => ({ onetown: [placeAt('Onetown', 'East', 13)], anytown: TWO_TOWNS })[said.toLowerCase()] ?? [],
  near: (said) => (said === 'Onetwn' ? ['Onetown'] : []),
  make: async () => nights.find(nights.all()[0]?.id ?? ''),
})

const ASSUMED = { ...A_TELESCOPE, id: 'telescope-3', axisHighCm: 120, note: ASSUMED_NOTE }
const station = A_NIGHT.stations[0]
if (!station) throw new Error('The night of the tests has a station')

export const START_PAGES: Pick<
  { readonly [Name in keyof Pages]: readonly [Pages[Name], Pages[Name]] },
  'start' | 'start-made'
> = {
  start: [
    startPage(HOST, {
      state: {
        values: { town: 'Anytown', date: '7/8/2026', kit: 'two', place: '48,12' },
        problems: [
          { field: 'place', key: 'problem.town-many', values: { town: 'Anytown' } },
          { field: 'date', key: 'problem.date-said' },
          { field: 'kit', key: 'problem.kit-width', values: { said: 'two' } },
        ],
      },
      places: TWO_TOWNS,
      key: 'key-12345',
    }),
    startPage(HOST, { state: { values: {}, problems: [] }, places: [], key: 'key-12345' }),
  ],
  'start-made': [
    startMadePage(HOST, {
      night: { ...A_NIGHT, stations: [station, { ...station, id: 'station-2', telescope: ASSUMED }] },
      tour: TOUR,
      isTown: true,
      isStale: false,
    }),
    startMadePage(VISITOR, {
      night: { ...A_NIGHT, site: { ...A_SITE, horizon: [], glow: [] }, stations: [] },
      tour: { ...TOUR, stops: [], notices: [{ code: 'tour.no-telescope' }] },
      isTown: false,
      isStale: true,
    }),
  ],
}
