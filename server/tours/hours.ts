import { DateTime } from 'luxon'
import type { Night } from './night.ts'

type Dated = Pick<Night, 'date' | 'opens' | 'closes'> & { readonly site: { readonly zone: string } }

/** True when luxon knows the IANA zone. */
export const isZone = (zone: string): boolean => DateTime.utc(2026).setZone(zone).isValid

/** Local noon of a calendar date `YYYY-MM-DD` in an IANA zone, the instant at which the sky of an evening begins. */
export const noonOf = (date: string, zone: string): Date => wallInstant(date, '12:00', zone)

/**
 * The instant of a clock time `HH:mm` of the night: a time before noon belongs to the next morning when the night opens
 * at noon or later. A time that the clock change skips is moved on by the hour that is skipped.
 */
export function instantOf(night: Dated, time: string): Date {
  const isNextMorning = night.opens >= '12:00' && time < '12:00'
  return wallInstant(isNextMorning ? nextDate(night.date) : night.date, time, night.site.zone)
}

/** First and last instant of the public hours. */
export const nightHours = (night: Dated): { readonly opensAt: Date; readonly closesAt: Date } => ({
  opensAt: instantOf(night, night.opens),
  closesAt: instantOf(night, night.closes),
})

/** Clock time `HH:mm`, 24 hours, of an instant in a zone. */
export const wallClock = (at: Date, zone: string): string => DateTime.fromJSDate(at, { zone }).toFormat('HH:mm')

/** Calendar date `YYYY-MM-DD` of an instant in a zone. */
export const wallDate = (at: Date, zone: string): string => DateTime.fromJSDate(at, { zone }).toFormat('yyyy-MM-dd')

/** The borders of the quarter hours of the public hours: opening, every quarter by the site's clocks, closing. */
export function quarterHours(night: Dated): readonly Date[] {
  const { opensAt, closesAt } = nightHours(night)
  const opens = DateTime.fromJSDate(opensAt, { zone: night.site.zone })
  const borders = [opensAt]
  let next = opens.startOf('minute').plus({ minutes: 15 - (opens.minute % 15) })
  while (next.toMillis() < closesAt.getTime()) {
    borders.push(next.toJSDate())
    next = next.plus({ minutes: 15 })
  }
  return [...borders, closesAt]
}

function wallInstant(date: string, time: string, zone: string): Date {
  const at = DateTime.fromISO(`${date}T${time}`, { zone })
  if (!at.isValid) throw new Error(`No instant for ${date} ${time} in ${zone}`)
  return at.toJSDate()
}

const nextDate = (date: string): string => DateTime.fromISO(date, { zone: 'utc' }).plus({ days: 1 }).toISODate() ?? date
