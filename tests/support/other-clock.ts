import type { Night } from '../../server/tours/night.ts'

/** Clock times and dates of a zone as the platform's own tables give them: a second reckoning beside the library of the service. */

const QUARTER_MS = 900_000
const clocks = new Map<string, Intl.DateTimeFormat>()

function clockOf(zone: string): Intl.DateTimeFormat {
  const known = clocks.get(zone)
  if (known) return known
  const made = new Intl.DateTimeFormat('en-GB', {
    hour: '2-digit',
    minute: '2-digit',
    hourCycle: 'h23',
    timeZone: zone,
  })
  clocks.set(zone, made)
  return made
}

/** `02:15`. */
export const plainClock = (at: Date, zone: string): string => clockOf(zone).format(at)

/** The same; a time that the clocks showed already in the three hours before is `second 02:15`. */
export function saidClock(at: Date, zone: string): string {
  const time = plainClock(at, zone)
  const before = Array.from({ length: 12 }, (_, k) => new Date(at.getTime() - (k + 1) * QUARTER_MS))
  return before.some((earlier) => plainClock(earlier, zone) === time) ? `second ${time}` : time
}

/** `Sunday 28 March 2027`, as the calendar at the site has it at an instant. */
export function saidDate(at: Date, zone: string): string {
  const said = (options: Intl.DateTimeFormatOptions): string =>
    new Intl.DateTimeFormat('en', { ...options, timeZone: zone }).format(at)
  const parts = [{ weekday: 'long' }, { day: 'numeric' }, { month: 'long' }, { year: 'numeric' }] as const
  return parts.map(said).join(' ')
}

/** The hours and half hours of the clocks from one instant to another, both with them. */
export function halfHoursBetween(fromAt: Date, untilAt: Date, { site }: Pick<Night, 'site'>): readonly string[] {
  const times: string[] = []
  for (let ms = Math.ceil(fromAt.getTime() / QUARTER_MS) * QUARTER_MS; ms <= untilAt.getTime(); ms += QUARTER_MS) {
    const at = new Date(ms)
    if (/:[03]0$/.test(plainClock(at, site.zone))) times.push(saidClock(at, site.zone))
  }
  return times
}
