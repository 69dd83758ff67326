import { seededRandom } from '../../server/sky/random.ts'
import { DEFAULT_SETTINGS, type Night } from '../../server/tours/night.ts'
import type { SiteDraft } from '../../server/tours/site.ts'
import type { TelescopeDraft } from '../../server/tours/telescope.ts'
import { skyline, visitors } from '../judged/judged-night.ts'
import { drivenCatadioptric, drivenReflector, handReflector, lowRefractor, wideRefractor } from '../judged/kit.ts'
import { nightOf } from './demo-night.ts'

const KIT: readonly (() => TelescopeDraft)[] = [
  () => lowRefractor(80),
  () => drivenReflector(150),
  () => handReflector(250),
  () => drivenCatadioptric(127),
  () => wideRefractor(80),
  () => drivenCatadioptric(200),
  () => lowRefractor(102),
  () => handReflector(200),
  () => drivenReflector(200, 'equatorial'),
  () => handReflector(300),
]
const THINGS = ['oak', 'gym roof', 'hedge', 'houses', 'poplars', 'hill']

/** The night of a number: 1 to 8 telescopes, 2 to 4 hours, latitude -45 to 60, any day of four years, town or dark, with things in the way. */
export function generatedNight(number: number): Night {
  const random = seededRandom(number * 7919 + 17)
  const between = (low: number, high: number): number => low + (high - low) * random()
  const latitudeDeg = Math.round(between(-45, 60) * 10) / 10
  const day = new Date(Date.UTC(2026, 0, 1 + Math.floor(between(0, 1461))))
  const quarters = 8 + Math.floor(between(0, 9))
  const opensAt = openingOf(latitudeDeg, day)
  const count = 1 + (number % 8)
  const telescopes = Array.from(
    { length: count },
    () => KIT[Math.floor(between(0, KIT.length))]?.() ?? lowRefractor(80),
  )
  const text = (minutes: number): string =>
    `${String(Math.floor(minutes / 60) % 24).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`
  const [opens, closes] = [text(opensAt), text(opensAt + 15 * quarters)]
  const site: SiteDraft = {
    name: `Field ${number}`,
    latitudeDeg,
    longitudeDeg: 0,
    heightM: 200,
    zone: 'Etc/UTC',
    skyMag: Math.round(between(18, 21.5) * 10) / 10,
    horizon: skyline(
      ...Array.from({ length: 8 }, (_, i): readonly [number, number, string] => [
        45 * i,
        Math.round(between(3, 20)),
        THINGS[Math.floor(between(0, THINGS.length))] ?? 'hedge',
      ]),
    ),
    glow: [],
  }
  const night = {
    title: `Night ${number}`,
    siteId: 'field',
    date: day.toISOString().slice(0, 10),
    opens,
    closes,
    visitors: visitors(
      opens,
      Math.ceil(quarters / 2),
      Math.round(between(4, 14) * count),
      Math.round(between(0, 8) * count),
    ),
    stations: telescopes.map((_, i) => ({
      name: `Station ${i + 1}`,
      kind: 'telescope' as const,
      telescopeId: String(i),
      operator: '',
      isForChildren: i === 0,
    })),
    settings: DEFAULT_SETTINGS,
  }
  return nightOf({ site, telescopes, night, rehearsesFrom: opens })
}

/** Minutes after midnight at which such a night would open: about an hour after sunset, by the Sun's declination alone; never after 23:00. */
function openingOf(latitudeDeg: number, day: Date): number {
  const yearDay = (day.getTime() - Date.UTC(day.getUTCFullYear(), 0, 1)) / 86_400_000
  const declination = (-23.44 * Math.PI * Math.cos((2 * Math.PI * (yearDay + 10)) / 365.25)) / 180
  const cosine = -Math.tan((latitudeDeg * Math.PI) / 180) * Math.tan(declination)
  const halfDayHours = (12 / Math.PI) * Math.acos(Math.min(1, Math.max(-1, cosine)))
  return Math.min(23 * 60, Math.round(((12 + halfDayHours + 1) * 60) / 15) * 15)
}
