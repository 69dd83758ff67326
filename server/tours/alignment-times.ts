import { DateTime } from 'luxon'
import { bodyLook } from '../sky/body.ts'
import type { SkyEvening } from '../sky/evening.ts'
import { isSunUp, SUN_UP_DEG } from '../sky/sun-up.ts'
import { type Dated, nightHours, wallClock } from './hours.ts'
import { placeOf, type Site } from './site.ts'

const QUARTER_MIN = 15
const QUARTER_MS = QUARTER_MIN * 60_000
const HOUR_MS = 3_600_000
/** Stars are asked for until the closing, and in any case so long. */
const LEAST_MS = 2 * HOUR_MS
/** No faster than the sky turns, and a little for the Sun's own way. */
const MOST_SUN_DEG_AN_HOUR = 15.1

/**
 * The quarter hours by the site's clocks at which one may ask for stars: from sunset (two hours before the opening where
 * the Sun does not set) to the closing, those at which the Sun is up left out. A clock time that comes twice is there once.
 */
export function alignmentTimes(
  night: Dated & { readonly site: Site },
  { sunsetAt }: Pick<SkyEvening, 'sunsetAt'>,
): readonly Date[] {
  const { opensAt, closesAt } = nightHours(night)
  const { zone } = night.site
  const from = sunsetAt ?? new Date(opensAt.getTime() - LEAST_MS)
  const untilMs = Math.max(closesAt.getTime(), from.getTime() + LEAST_MS)
  const isDown = sunWatch(night.site)
  const times = new Map<string, Date>()
  for (let ms = quarterFrom(from, zone); ms <= untilMs; ms += QUARTER_MS) {
    const at = new Date(ms)
    const text = wallClock(at, zone)
    if (isDown(at) && !times.has(text)) times.set(text, at)
  }
  return [...times.values()]
}

/** Tells of instants in their order whether the Sun is down; while it cannot have come up since, it is not reckoned anew. */
function sunWatch(site: Site): (at: Date) => boolean {
  const place = placeOf(site)
  let downUntilMs = Number.NEGATIVE_INFINITY
  return (at) => {
    if (at.getTime() < downUntilMs) return true
    const { altitudeDeg } = bodyLook('sun', at, place)
    if (isSunUp(altitudeDeg)) return false
    downUntilMs = at.getTime() + ((SUN_UP_DEG - altitudeDeg) / MOST_SUN_DEG_AN_HOUR) * HOUR_MS
    return true
  }
}

/** The first quarter hour of the clocks that is not before an instant. */
function quarterFrom(from: Date, zone: string): number {
  const quarter = DateTime.fromJSDate(from, { zone }).startOf('hour')
  const shortMin = (from.getTime() - quarter.toMillis()) / 60_000
  return quarter.toMillis() + Math.ceil(shortMin / QUARTER_MIN) * QUARTER_MS
}
