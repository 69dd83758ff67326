import { DateTime } from 'luxon'
import { bodyLook } from '../sky/body.ts'
import { type SkyEvening, skyEvening } from '../sky/evening.ts'
import { isSunUp } from '../sky/sun-up.ts'
import type { DateRules, NightKind } from './date-rules.ts'
import { instantOf, noonOf } from './hours.ts'
import { placeOf, type Site } from './site.ts'

/** The part of the rules that decides when people would come. */
export type DateHoursAsk = Pick<DateRules, 'kind' | 'afterSunsetMin' | 'opensFrom' | 'bedtime'>

/** Why no part of the public hours is dark. */
export type NoDark = 'midnight-sun' | 'sun-late' | 'never-dark' | 'dusk-late'

/** The hours of one date, and when it is dark in them. */
export interface DateHours {
  readonly sunsetAt: Date | null
  /** Null where the Sun sets so late that the hours would start after bedtime. */
  readonly opensAt: Date | null
  readonly bedAt: Date
  /** When the step of dusk comes that this kind of night needs, also after bedtime; null where it does not come. */
  readonly duskAt: Date | null
  /** Minutes of the public hours that are dark. */
  readonly darkMin: number
  readonly noDark: NoDark | null
  /** The Sun does not rise on that day. */
  readonly isPolarNight: boolean
  /** By how many minutes the clocks go forward (or back, less than 0) between noon and the next noon; 0 on most nights. */
  readonly clocksMin: number
}

/** True altitude of the Sun at which it is dark enough: the Moon and planets need the first dusk, clusters the second, faint things the third. */
const DARK_DEG: Readonly<Record<NightKind, number>> = { school: -6, town: -12, 'dark-site': -18 }
const DUSKS = { school: 'civilDuskAt', town: 'nauticalDuskAt', 'dark-site': 'astronomicalDuskAt' } as const

const MINUTE_MS = 60_000
const QUARTER_MS = 15 * MINUTE_MS

/** The hours of a date at a site, and the turning points of its sky. */
export function dateHours(site: Site, date: string, ask: DateHoursAsk): DateHours & { readonly events: SkyEvening } {
  const place = placeOf(site)
  const noonAt = noonOf(date, site.zone)
  const events = skyEvening(noonAt, place)
  const dated = { date, opens: ask.opensFrom, closes: ask.bedtime, site }
  const bedAt = instantOf(dated, ask.bedtime)
  const sunDegAt = (at: Date): number => bodyLook('sun', at, place).altitudeDeg
  const firstAt = instantOf(dated, ask.opensFrom)
  const opensAt = openingOf(events.sunsetAt, firstAt, bedAt, ask.afterSunsetMin)
  const dark = darkOf(events[DUSKS[ask.kind]], opensAt, bedAt, sunDegAt(bedAt) < DARK_DEG[ask.kind])
  return {
    events,
    sunsetAt: events.sunsetAt,
    opensAt,
    bedAt,
    ...dark,
    noDark: dark.darkMin > 0 ? null : whyNoDark(events, dark.duskAt, opensAt, isSunUp(sunDegAt(bedAt))),
    isPolarNight: events.sunsetAt === null && !isSunUp(sunDegAt(noonAt)) && !isSunUp(sunDegAt(bedAt)),
    clocksMin: clocksMin(date, site.zone),
  }
}

/** So long after sunset, on a quarter of an hour, but not before the host's first hour; null when that is bedtime. */
function openingOf(sunsetAt: Date | null, firstAt: Date, bedAt: Date, afterSunsetMin: number): Date | null {
  const bySunMs = sunsetAt === null ? 0 : sunsetAt.getTime() + afterSunsetMin * MINUTE_MS
  const opensMs = Math.max(firstAt.getTime(), Math.ceil(bySunMs / QUARTER_MS) * QUARTER_MS)
  return opensMs < bedAt.getTime() ? new Date(opensMs) : null
}

function darkOf(duskAt: Date | null, opensAt: Date | null, bedAt: Date, isDarkAtBedtime: boolean) {
  const fromAt = duskAt ?? (isDarkAtBedtime ? opensAt : null)
  if (opensAt === null || fromAt === null || !isDarkAtBedtime) return { duskAt, darkMin: 0 }
  const fromMs = Math.max(fromAt.getTime(), opensAt.getTime())
  return { duskAt, darkMin: Math.max(0, Math.round((bedAt.getTime() - fromMs) / MINUTE_MS)) }
}

function whyNoDark(
  { sunsetAt }: SkyEvening,
  duskAt: Date | null,
  opensAt: Date | null,
  isSunUpAtBedtime: boolean,
): NoDark {
  if (sunsetAt === null && isSunUpAtBedtime) return 'midnight-sun'
  if (opensAt === null || isSunUpAtBedtime) return 'sun-late'
  return duskAt === null ? 'never-dark' : 'dusk-late'
}

function clocksMin(date: string, zone: string): number {
  const noon = DateTime.fromJSDate(noonOf(date, zone), { zone })
  return noon.plus({ days: 1 }).offset - noon.offset
}
