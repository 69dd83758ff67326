import { radians } from '../sky/angles.ts'
import { type BodyKey, bodyLook, bodyLooks } from '../sky/body.ts'
import { nextSet } from '../sky/crossing.ts'
import { type MoonQuarter, moonQuarters } from '../sky/moon-quarters.ts'
import type { Place } from '../sky/place.ts'
import { noonOf } from './hours.ts'
import { type Pointing, pointingOf } from './pointing.ts'
import { fixedSeason, monthOfYear, yearOfEvenings } from './season.ts'
import { showerPeak } from './shower-peak.ts'
import { placeOf, type Site } from './site.ts'
import { type SunTonight, sunTonight } from './sun-tonight.ts'
import type { ShowObject } from './target.ts'

/** A planet that bare eyes find on an evening, at the hour of that evening when it stands highest. */
export interface PlanetByEye extends Pointing {
  readonly key: BodyKey
  /** The first of the evenings looked at that shows it is this one; false where it comes later in the month. */
  readonly isNow: boolean
  readonly at: Date
}

/** A shower whose most meteors fall in these weeks. */
export interface ShowerSoon {
  readonly object: ShowObject
  readonly peakAt: Date
  /** At most so many an hour for one watcher, under a perfect sky with the radiant where it stands highest. */
  readonly mostPerHour: number
  readonly isMoonBright: boolean
}

/** What people can go and see by themselves in the four weeks after a night, over open land at this latitude. */
export interface BareEyesMonth {
  /** What the Sun does in these weeks: it sets if it does in any of the evenings looked at. */
  readonly sun: SunTonight
  readonly planets: readonly PlanetByEye[]
  readonly showers: readonly ShowerSoon[]
  /** Sights with a fixed place that are well placed in the evenings of this month, most appealing first. */
  readonly sights: readonly ShowObject[]
  readonly moons: readonly MoonQuarter[]
}

const WEEKS_DAYS = 28
const DAY_MS = 86_400_000
const MINUTE_MS = 60_000
const PLANETS = ['mercury', 'venus', 'mars', 'jupiter', 'saturn'] as const satisfies readonly BodyKey[]
// Choices: evenings looked at, hours of an evening when people are up, how high and how bright a planet must be.
const EVENINGS = [0, 9, 18, 27]
const AFTER_SUNSET_MIN = [40, 100, 160, 220, 280]
/** From noon: 18:00 to 22:00. */
const CLOCK_MIN = [360, 420, 480, 540, 600]
const LEAST_DEG = 8
const FAINTEST_MAG = 2
const LEAST_RADIANT_DEG = 15
const BRIGHT_MOON = 0.5

/** What bare eyes find from the date of an evening (`YYYY-MM-DD`) on; the things given are those of the list that no telescope shows. */
export function bareEyesMonth(site: Site, date: string, byEye: readonly ShowObject[]): BareEyesMonth {
  const place = placeOf(site)
  const noonAt = noonOf(date, site.zone)
  const evenings = EVENINGS.map((day) => eveningOf(site, new Date(noonAt.getTime() + day * DAY_MS)))
  return {
    sun: evenings.some(({ sun }) => sun === 'sets') ? 'sets' : sunTonight(site, { sunsetAt: null }, noonAt),
    planets: planetsByEye(evenings, place),
    showers: byEye.flatMap((object) => showerSoon(object, noonAt, place)),
    sights: sightsOf(byEye, date, place),
    moons: moonQuarters(noonAt, WEEKS_DAYS),
  }
}

interface Evening {
  readonly sun: SunTonight
  /** The moments looked at. */
  readonly times: readonly Date[]
}

/** The hours after sunset from the noon before; by the clock where the Sun does not rise, none where it does not set. */
function eveningOf(site: Site, noonAt: Date): Evening {
  const sunsetAt = nextSet('sun', noonAt, placeOf(site))
  const sun = sunTonight(site, { sunsetAt }, noonAt)
  if (sun === 'stays-up') return { sun, times: [] }
  const [fromAt, minutes] = sunsetAt === null ? [noonAt, CLOCK_MIN] : [sunsetAt, AFTER_SUNSET_MIN]
  return { sun, times: minutes.map((min) => toTenMinutes(new Date(fromAt.getTime() + min * MINUTE_MS))) }
}

function planetsByEye(evenings: readonly Evening[], place: Place): PlanetByEye[] {
  const found = evenings.flatMap(({ times }, evening) =>
    highestOn(times, place).map((planet) => ({ ...planet, isNow: evening === 0 })),
  )
  return PLANETS.flatMap((key) => found.find((planet) => planet.key === key) ?? [])
}

type Highest = Omit<PlanetByEye, 'isNow'>

function highestOn(times: readonly Date[], place: Place): Highest[] {
  const best = new Map<BodyKey, Highest & { readonly altitudeDeg: number }>()
  for (const at of times) {
    for (const look of bodyLooks(PLANETS, at, place)) {
      const { key, altitudeDeg, magnitude } = look
      if (altitudeDeg < LEAST_DEG || magnitude > FAINTEST_MAG) continue
      if (altitudeDeg > (best.get(key)?.altitudeDeg ?? 0)) best.set(key, { key, at, altitudeDeg, ...pointingOf(look) })
    }
  }
  return [...best.values()].map(({ key, at, point, fists }) => ({ key, at, point, fists }))
}

const TEN_MIN_MS = 600_000
const toTenMinutes = (at: Date): Date => new Date(Math.round(at.getTime() / TEN_MIN_MS) * TEN_MIN_MS)

function showerSoon(object: ShowObject, fromAt: Date, place: Place): ShowerSoon[] {
  const { shower, decDeg } = object
  if (shower === null || decDeg === null) return []
  const highestDeg = 90 - Math.abs(place.latitudeDeg - decDeg)
  const peakAt = showerPeak(shower.peakSunDeg, fromAt)
  if (highestDeg < LEAST_RADIANT_DEG || peakAt.getTime() - fromAt.getTime() > WEEKS_DAYS * DAY_MS) return []
  return [
    {
      object,
      peakAt,
      mostPerHour: shower.zhr * Math.sin(radians(highestDeg)),
      isMoonBright: bodyLook('moon', peakAt, place).litFraction > BRIGHT_MOON,
    },
  ]
}

function sightsOf(byEye: readonly ShowObject[], date: string, place: Place): ShowObject[] {
  const evenings = yearOfEvenings(monthOfYear(date.slice(0, 7)), place).slice(0, 1)
  return byEye
    .filter(({ kind, raDeg, decDeg }) => {
      if (kind !== 'bare-eye' || raDeg === null || decDeg === null) return false
      const season = fixedSeason({ raDeg, decDeg }, place, evenings)
      return season.code === 'months' && season.months.length > 0
    })
    .sort((a, b) => b.appeal - a.appeal)
}
