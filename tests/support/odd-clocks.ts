import type { DemoEvening } from '../../seed-demo/evening.ts'
import { DEFAULT_SETTINGS } from '../../server/tours/night.ts'
import { handReflector, wideRefractor } from '../judged/kit.ts'

/** What the Sun does in a night: whether it gets dark, and if not why. */
export type SunWay = 'dark' | 'stays-up' | 'stays-down' | 'twilight'

export interface OddNight extends DemoEvening {
  /** What is odd about it. */
  readonly name: string
  readonly sun: SunWay
  /** The change of the clocks between its noon and the next, in minutes; 0 for none. */
  readonly changeMin: number
}

type Row = readonly [
  name: string,
  site: readonly [name: string, latitudeDeg: number, longitudeDeg: number, zone: string],
  hours: readonly [date: string, opens: string, closes: string],
  sun?: SunWay,
  changeMin?: number,
]

const HALDE = ['Lindenbuck meadow', 47.4, 8.6, 'Europe/Zurich'] as const
const MESA = ['Dry Fork school', 39.7, -105, 'America/Denver'] as const
const REEF = ['Curlew paddock', -31.55, 159.08, 'Australia/Lord_Howe'] as const
const FJORD = ['Skarvneset field', 69.65, 18.96, 'Europe/Oslo'] as const
const ICE = ['Hut ridge', -77.85, 166.67, 'Antarctica/McMurdo'] as const
const BLUFF = ['Saltbush green', -43.95, -176.55, 'Pacific/Chatham'] as const
const CEDAR = ['Cedar terrace', 33.9, 35.5, 'Asia/Beirut'] as const

/** Real places and zones under invented names; the days of change are those of the zone tables for 2027. */
const ROWS: readonly Row[] = [
  ['midnight sun', FJORD, ['2027-06-21', '20:00', '22:00'], 'stays-up'],
  ['polar night', FJORD, ['2027-12-21', '17:00', '19:00'], 'stays-down'],
  ['half an hour back', REEF, ['2027-04-03', '23:00', '02:30'], 'dark', -30],
  ['spring in Europe', HALDE, ['2027-03-27', '23:30', '03:30'], 'dark', 60],
  ['51.5 north in June', ['Heron common', 51.5, -0.5, 'Europe/London'], ['2027-06-21', '22:00', '00:30'], 'twilight'],
  ['autumn in Europe', HALDE, ['2027-10-30', '23:00', '03:30'], 'dark', -60],
  ['spring in the USA', MESA, ['2027-03-13', '22:30', '03:30'], 'dark', 60],
  ['autumn in the USA', MESA, ['2027-11-06', '22:00', '02:00'], 'dark', -60],
  ['opens as the clocks change', HALDE, ['2027-03-28', '03:00', '05:00'], 'dark', 60],
  ['half an hour forward', REEF, ['2027-10-02', '23:00', '03:00'], 'dark', 30],
  ['back at midnight', CEDAR, ['2027-10-30', '21:00', '00:30'], 'dark', -60],
  ['forward at midnight', CEDAR, ['2027-03-27', '21:00', '01:30'], 'dark', 60],
  ['plus 5:45', ['Terrace of bells', 27.7, 85.3, 'Asia/Kathmandu'], ['2027-02-12', '18:30', '20:30']],
  ['plus 14', ['Frigate beach', 1.87, -157.4, 'Pacific/Kiritimati'], ['2027-05-14', '19:00', '21:00']],
  ['minus 11', ['Breadfruit yard', -14.28, -170.7, 'Pacific/Pago_Pago'], ['2027-05-14', '19:00', '21:00']],
  ['plus 12:45 and back', BLUFF, ['2027-04-03', '23:30', '04:00'], 'dark', -60],
  ['plus 13:45', BLUFF, ['2027-01-09', '22:15', '00:15']],
  ['Antarctic summer', ICE, ['2027-12-21', '20:00', '22:00'], 'stays-up'],
  ['Antarctic winter', ICE, ['2027-06-21', '18:00', '20:00'], 'stays-down'],
  ['the South Pole', ['Pole marker', -90, 0, 'Antarctica/McMurdo'], ['2027-06-21', '18:00', '20:00'], 'stays-down'],
  ['the equator', ['Volcano balcony', 0, -78.5, 'America/Guayaquil'], ['2027-03-20', '19:00', '21:00']],
  ['after midnight', HALDE, ['2027-08-13', '00:30', '02:30']],
  ['sunset before noon', FJORD, ['2027-11-27', '17:00', '19:00']],
]

/** Nights whose clocks or whose Sun are odd; those of the short run come first. */
export const ODD_NIGHTS: readonly OddNight[] = ROWS.map(([name, site, hours, sun = 'dark', changeMin = 0]) => ({
  name,
  sun,
  changeMin,
  ...eveningOf(name, site, hours),
}))

/** Two telescopes, a guide and a screen, so that every page has what it tells of. */
function eveningOf(title: string, site: Row[1], [date, opens, closes]: Row[2]): DemoEvening {
  const [name, latitudeDeg, longitudeDeg, zone] = site
  const station = { operator: 'Ada', isForChildren: false, telescopeId: null }
  return {
    site: { name, latitudeDeg, longitudeDeg, heightM: 200, zone, skyMag: 20, horizon: [], glow: [] },
    telescopes: [wideRefractor(80), handReflector(200)],
    night: {
      title: `Night of ${title}`,
      siteId: 'site',
      date,
      opens,
      closes,
      visitors: [{ startsAt: opens, adults: 20, children: 10, seated: 1 }],
      stations: [
        { ...station, name: 'Low tube', kind: 'telescope', telescopeId: '0', isForChildren: true },
        { ...station, name: 'Big tube', kind: 'telescope', telescopeId: '1' },
        { ...station, name: 'Sky guide', kind: 'bare-eye' },
        { ...station, name: 'Screen', kind: 'screen' },
      ],
      settings: DEFAULT_SETTINGS,
    },
    rehearsesFrom: opens,
  }
}
