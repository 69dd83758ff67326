import { degrees, radians, wrap180, wrap360 } from '../sky/angles.ts'
import { type BodyKey, bodyLook } from '../sky/body.ts'
import type { Place } from '../sky/place.ts'
import { showerPeak } from './shower-peak.ts'
import type { ShowObject } from './target.ts'

/** A month of the calendar, 1 to 12, of one year. */
interface MonthOfYear {
  readonly year: number
  readonly month: number
}

/** The month of a text `YYYY-MM`. */
export function monthOfYear(text: string): MonthOfYear {
  const [year = 0, month = 1] = text.split('-').map(Number)
  return { year, month }
}

/** A part of an evening, by instants and by the sidereal time in degrees at its start and how far the sky turns in it. */
interface Span {
  readonly fromAt: Date
  readonly toAt: Date
  readonly fromSiderealDeg: number
  readonly turnDeg: number
}

/** The evening of the 15th of a month over a place: from an hour after dusk, and from an hour after sunset; null where there is none. */
interface MonthEvening extends MonthOfYear {
  readonly dark: Span | null
  readonly early: Span | null
}

/** In which months a thing is a sight of the evening, in the order of the calendar, or what there is to say instead. */
export interface Season {
  readonly code: 'months' | 'never-rises' | 'stays-low' | 'not-soon' | 'moon' | 'shower' | 'moves' | 'any'
  /** 1 to 12; all of them for what is there in any month. */
  readonly months: readonly number[]
  /** How high it ever stands over the place in degrees; null for what wanders. */
  readonly highestDeg: number | null
  /** True for what never goes below the level horizon. */
  readonly neverSets: boolean
  /** When most meteors of a shower fall next. */
  readonly peakAt: Date | null
}

const HOUR_MS = 3_600_000
const HOUR_DEG = 15
const LATEST_HOUR = 23
const MIDDLE_DAY = 15
const DARK_SUN_DEG = -12
const SUNSET_DEG = -0.833
/** A thing that never climbs higher is well placed at no time, and nothing higher than that is asked of any (choices). */
const LEAST_HIGHEST_DEG = 15
const HIGH_ENOUGH_DEG = 40
const NEARLY_HIGHEST = 0.75

export const ALL_MONTHS: readonly number[] = Array.from({ length: 12 }, (_, i) => i + 1)

/** The evenings of twelve months from one on. */
export const yearOfEvenings = ({ year, month }: MonthOfYear, place: Place): readonly MonthEvening[] =>
  ALL_MONTHS.map((_, i) => {
    const later = month - 1 + i
    return monthEvening({ year: year + Math.floor(later / 12), month: (later % 12) + 1 }, place)
  })

function monthEvening({ year, month }: MonthOfYear, place: Place): MonthEvening {
  const latestMs = Date.UTC(year, month - 1, MIDDLE_DAY, LATEST_HOUR) - (place.longitudeDeg / HOUR_DEG) * HOUR_MS
  const sun = bodyLook('sun', new Date(latestMs), place)
  const siderealDeg = greenwichDeg(latestMs) + place.longitudeDeg
  const latestDeg = wrap360(siderealDeg - sun.raDeg)
  const spanFrom = (sunDeg: number): Span | null => {
    const goneDeg = hourAngleAt(sunDeg, sun.decDeg, place.latitudeDeg)
    if (goneDeg === null) return null
    const toDeg = Math.max(latestDeg, goneDeg)
    const fromDeg = Math.min(goneDeg + HOUR_DEG, toDeg)
    const at = (turnedDeg: number) => new Date(latestMs + ((turnedDeg - latestDeg) / HOUR_DEG) * HOUR_MS)
    return {
      fromAt: at(fromDeg),
      toAt: at(toDeg),
      fromSiderealDeg: wrap360(sun.raDeg + fromDeg),
      turnDeg: toDeg - fromDeg,
    }
  }
  return { year, month, dark: spanFrom(DARK_SUN_DEG), early: spanFrom(SUNSET_DEG) }
}

/** Mean sidereal time at Greenwich in degrees (Meeus, 2nd ed., eq. 12.4 without its small terms). */
const greenwichDeg = (ms: number): number =>
  wrap360(280.46061837 + (360.98564736629 * (ms - Date.UTC(2000, 0, 1, 12))) / 86_400_000)

/** Hour angle in degrees at which the Sun goes below a height: null when it never does, 75 (about 17 h) where it is never above. */
function hourAngleAt(altitudeDeg: number, decDeg: number, latitudeDeg: number): number | null {
  const cosine = cosineAt(altitudeDeg, decDeg, latitudeDeg)
  if (cosine < -1) return null
  return cosine > 1 ? 5 * HOUR_DEG : degrees(Math.acos(cosine))
}

const TINY = 1e-9
function cosineAt(altitudeDeg: number, decDeg: number, latitudeDeg: number): number {
  const [altitude, dec, lat] = [radians(altitudeDeg), radians(decDeg), radians(latitudeDeg)]
  return (Math.sin(altitude) - Math.sin(lat) * Math.sin(dec)) / Math.max(TINY, Math.cos(lat) * Math.cos(dec))
}

/** When a thing of the list is a sight of the evening over a place, from the twelve evenings given; the Moon, showers and what moves say so. */
export function seasonOf(object: ShowObject, place: Place, evenings: readonly MonthEvening[]): Season {
  const { kind, body, parent, shower, raDeg, decDeg } = object
  if (kind === 'moon') return { ...NO_SEASON, code: 'moon', months: ALL_MONTHS }
  if (kind === 'comet') return { ...NO_SEASON, code: 'moves' }
  const wanderer = body ?? parent
  if (wanderer !== null) return bodySeason(wanderer, place, evenings)
  if (shower !== null) return showerSeason(shower.peakSunDeg, evenings)
  if (raDeg === null || decDeg === null) return { ...NO_SEASON, code: 'any', months: ALL_MONTHS }
  return fixedSeason({ raDeg, decDeg }, place, evenings)
}

const NO_SEASON: Season = { code: 'months', months: [], highestDeg: null, neverSets: false, peakAt: null }

/** The same for a place of the sky that stays: three quarters of its greatest height, or 40 degrees, at some time of the dark evening. */
export function fixedSeason(
  { raDeg, decDeg }: { readonly raDeg: number; readonly decDeg: number },
  { latitudeDeg }: Place,
  evenings: readonly MonthEvening[],
): Season {
  const highestDeg = 90 - Math.abs(latitudeDeg - decDeg)
  const neverSets = Math.abs(latitudeDeg + decDeg) > 90
  const found = { ...NO_SEASON, highestDeg, neverSets }
  if (highestDeg < 0) return { ...found, code: 'never-rises' }
  if (highestDeg < LEAST_HIGHEST_DEG) return { ...found, code: 'stays-low' }
  const cosine = cosineAt(enoughDeg(highestDeg), decDeg, latitudeDeg)
  const reachDeg = degrees(Math.acos(Math.min(1, Math.max(-1, cosine))))
  const months = evenings.filter(({ dark }) => dark !== null && isWithin(raDeg, reachDeg, dark))
  return { ...found, months: inOrder(months) }
}

const enoughDeg = (highestDeg: number): number => Math.min(HIGH_ENOUGH_DEG, NEARLY_HIGHEST * highestDeg)

const isWithin = (raDeg: number, reachDeg: number, { fromSiderealDeg, turnDeg }: Span): boolean =>
  Math.abs(wrap180(fromSiderealDeg + turnDeg / 2 - raDeg)) <= reachDeg + turnDeg / 2

const inOrder = (evenings: readonly MonthOfYear[]): number[] => evenings.map(({ month }) => month).sort((a, b) => a - b)

/** A planet wanders, so its months are those of the evenings given alone; it needs no dark sky. */
function bodySeason(body: BodyKey, place: Place, evenings: readonly MonthEvening[]): Season {
  const months = evenings.filter(({ early }) => {
    if (early === null) return false
    const [from, to] = [early.fromAt.getTime(), early.toAt.getTime()]
    return [from, (from + to) / 2, to].some((ms) => {
      const { altitudeDeg, decDeg } = bodyLook(body, new Date(ms), place)
      const highestDeg = 90 - Math.abs(place.latitudeDeg - decDeg)
      return highestDeg >= LEAST_HIGHEST_DEG && altitudeDeg >= enoughDeg(highestDeg)
    })
  })
  return { ...NO_SEASON, code: months.length > 0 ? 'months' : 'not-soon', months: inOrder(months) }
}

function showerSeason(peakSunDeg: number, [first]: readonly MonthEvening[]): Season {
  if (first === undefined) return NO_SEASON
  const peakAt = showerPeak(peakSunDeg, new Date(Date.UTC(first.year, first.month - 1, 1)))
  return { ...NO_SEASON, code: 'shower', months: [peakAt.getUTCMonth() + 1], peakAt }
}
