import { dateHours, type NoDark } from './date-hours.ts'
import { calendarDate, instantOf, wallClock } from './hours.ts'
import type { Night } from './night.ts'
import type { Site } from './site.ts'

/** The public hours of an evening of which only the date is known. */
export interface StartHours extends Pick<Night, 'date' | 'opens' | 'closes'> {
  /** Null where the Sun does not set, or does not rise. */
  readonly sunsetAt: Date | null
  /** True when dusk is so late that they end after the usual bedtime. */
  readonly isLate: boolean
  /** Why none of it before the usual bedtime is dark; null where some is. */
  readonly noDark: NoDark | null
  /** When it is dark enough for clusters; null where it is not. */
  readonly duskAt: Date | null
  readonly isPolarNight: boolean
}

/** Common practice, no source. */
export const USUAL_BEDTIME = '22:00'
const AFTER_SUNSET_MIN = 45
const LENGTH_MIN = 150
/** However late dusk is, it is worth coming for so long. */
const SHORTEST_MIN = 90
/** Where the Sun neither sets nor rises people come after supper. */
const WITHOUT_SUNSET = '19:30'
const NOON = '12:00'
const MINUTE_MS = 60_000
const QUARTER_MS = 15 * MINUTE_MS

/** From three quarters of an hour after sunset, on a quarter hour, for two and a half hours, but not past bedtime unless dusk is late. */
export function startHours(site: Site, date: string): StartHours {
  const ask = { kind: 'town', afterSunsetMin: AFTER_SUNSET_MIN, opensFrom: NOON, bedtime: USUAL_BEDTIME } as const
  const { sunsetAt, bedAt, noDark, duskAt, isPolarNight } = dateHours(site, date, ask)
  const opensMs = sunsetAt
    ? Math.round((sunsetAt.getTime() + AFTER_SUNSET_MIN * MINUTE_MS) / QUARTER_MS) * QUARTER_MS
    : instantOf({ date, opens: NOON, closes: USUAL_BEDTIME, site }, WITHOUT_SUNSET).getTime()
  const latestMs = Math.max(bedAt.getTime(), opensMs + SHORTEST_MIN * MINUTE_MS)
  const closesMs = Math.min(opensMs + LENGTH_MIN * MINUTE_MS, latestMs)
  const { zone } = site
  return {
    date: calendarDate(new Date(opensMs), zone),
    opens: wallClock(new Date(opensMs), zone),
    closes: wallClock(new Date(closesMs), zone),
    sunsetAt,
    isLate: closesMs > bedAt.getTime(),
    noDark,
    duskAt,
    isPolarNight,
  }
}
