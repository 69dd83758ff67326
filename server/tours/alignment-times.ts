import { DateTime } from 'luxon'
import { bodyLook } from '../sky/body.ts'
import type { SkyEvening } from '../sky/evening.ts'
import { isSunUp } from '../sky/sun-up.ts'
import { type Dated, nightHours, wallClock } from './hours.ts'
import { placeOf, type Site } from './site.ts'

const QUARTER_MIN = 15
const HOUR_MS = 3_600_000
/** Stars are asked for until the closing, and in any case so long. */
const LEAST_MS = 2 * HOUR_MS

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
  const times = new Map<string, Date>()
  for (let at = quarterFrom(from, zone); at.toMillis() <= untilMs; at = at.plus({ minutes: QUARTER_MIN })) {
    const text = wallClock(at.toJSDate(), zone)
    const isDown = !isSunUp(bodyLook('sun', at.toJSDate(), placeOf(night.site)).altitudeDeg)
    if (isDown && !times.has(text)) times.set(text, at.toJSDate())
  }
  return [...times.values()]
}

/** The first quarter hour of the clocks that is not before an instant. */
function quarterFrom(from: Date, zone: string): DateTime {
  const quarter = DateTime.fromJSDate(from, { zone }).startOf('hour')
  const shortMin = (from.getTime() - quarter.toMillis()) / 60_000
  return quarter.plus({ minutes: Math.ceil(shortMin / QUARTER_MIN) * QUARTER_MIN })
}
