import { DateTime } from 'luxon'
import type { Night } from './night.ts'

const NOON = '12:00'
const HALF_HOUR_MS = 1_800_000
/** The clocks go forward by two half hours at most, so that many more rows are looked at. */
const STEPS_OF_CLOCK_CHANGE = 2

/** What fixes the public hours of a night. */
export type Dated = Pick<Night, 'date' | 'opens' | 'closes'> & { readonly site: { readonly zone: string } }

/** True when luxon knows the IANA zone. */
export const isZone = (zone: string): boolean => DateTime.utc(2026).setZone(zone).isValid

/** True when a text `YYYY-MM-DD` is a day of the calendar. */
export const isDay = (date: string): boolean => DateTime.fromFormat(date, 'yyyy-MM-dd', { zone: 'utc' }).isValid

/** The days of a month `YYYY-MM`. */
export function daysOf(month: string): readonly string[] {
  const [year = 0, number = 1] = month.split('-').map(Number)
  const count = new Date(Date.UTC(year, number, 0)).getUTCDate()
  return Array.from({ length: count }, (_, i) => `${month}-${String(i + 1).padStart(2, '0')}`)
}

/** Local noon of a calendar date `YYYY-MM-DD` in an IANA zone, the instant at which the sky of an evening begins. */
export const noonOf = (date: string, zone: string): Date => wallInstant(date, NOON, zone)

/**
 * The instant of a clock time `HH:mm` of the night: a time before noon belongs to the next morning when the night opens
 * at noon or later. A time that the clock change skips is moved on by the hour that is skipped; of a time that comes
 * twice it is the first.
 */
export function instantOf(night: Dated, time: string): Date {
  const isNextMorning = night.opens >= NOON && time < NOON
  return wallInstant(isNextMorning ? dayAfter(night.date, 1) : night.date, time, night.site.zone)
}

/**
 * The calendar date on whose noon the sky of a night begins. The date of a night is the date of its opening time, so a
 * night that opens after midnight and has closed by noon belongs to the sky that began at the noon before.
 */
export const eveningDate = ({ date, opens, closes }: Pick<Dated, 'date' | 'opens' | 'closes'>): string =>
  opens < NOON && closes <= NOON ? dayAfter(date, -1) : date

/** The instant of a clock time `HH:mm` within the 24 hours from the noon on which the sky of a night begins. */
export const eveningInstant = (night: Dated, time: string): Date =>
  instantOf({ ...night, date: eveningDate(night), opens: NOON }, time)

/** The first instant of those 24 hours, and the first after them. */
export const eveningSpan = (night: Dated): { readonly fromAt: Date; readonly untilAt: Date } => ({
  fromAt: noonOf(eveningDate(night), night.site.zone),
  untilAt: noonOf(dayAfter(eveningDate(night), 1), night.site.zone),
})

/** First and last instant of the public hours. */
export const nightHours = (night: Dated): { readonly opensAt: Date; readonly closesAt: Date } => ({
  opensAt: instantOf(night, night.opens),
  closesAt: instantOf(night, night.closes),
})

/** The middle of the public hours, rounded down to the half hour by the site's clocks. */
export function middleOf(night: Dated): Date {
  const { opensAt, closesAt } = nightHours(night)
  const middle = DateTime.fromMillis((opensAt.getTime() + closesAt.getTime()) / 2, { zone: night.site.zone })
  return middle
    .startOf('minute')
    .minus({ minutes: middle.minute % 30 })
    .toJSDate()
}

/** Clock time `HH:mm`, 24 hours, of an instant in a zone. */
export const wallClock = (at: Date, zone: string): string => DateTime.fromJSDate(at, { zone }).toFormat('HH:mm')

/** The same for a remark: a clock time that comes for the second time, since the clocks went back, is `02:15 (2)`. */
export function remarkClock(at: Date, zone: string): string {
  const local = DateTime.fromJSDate(at, { zone })
  const isSecond = local.getPossibleOffsets().some((possible) => possible < local)
  return `${local.toFormat('HH:mm')}${isSecond ? ' (2)' : ''}`
}

/** Calendar date `YYYY-MM-DD` of an instant in a zone. */
export const calendarDate = (at: Date, zone: string): string => DateTime.fromJSDate(at, { zone }).toFormat('yyyy-MM-dd')

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

/**
 * The start `HH:mm` of each half hour of the public hours by the site's clocks; [] when they end before they begin. Half
 * hours that the clock change skips are left out. One that comes twice is there once and stands for the first of the
 * two; the last of them holds until the next row begins.
 */
export function halfHourStarts(night: Dated): readonly string[] {
  const { opensAt, closesAt } = nightHours(night)
  const steps = Math.ceil((closesAt.getTime() - opensAt.getTime()) / HALF_HOUR_MS) + STEPS_OF_CLOCK_CHANGE
  const first = DateTime.fromISO(`${night.date}T${night.opens}`, { zone: 'utc' })
  const starts = Array.from({ length: Math.max(0, steps) }, (_, k) => first.plus({ minutes: 30 * k }).toFormat('HH:mm'))
  return starts.filter((start) => {
    const at = instantOf(night, start)
    return !isSkipped(night, start) && opensAt <= at && at < closesAt
  })
}

/** True for a clock time `HH:mm` that the clock change of that night skips. */
export const isSkipped = (night: Dated, time: string): boolean =>
  wallClock(instantOf(night, time), night.site.zone) !== time

/** A page asks for the same instants again and again, and each takes the zone's clocks some looks. */
const instantsMs = new Map<string, number>()
const MOST_INSTANTS = 2_000

function wallInstant(date: string, time: string, zone: string): Date {
  const name = `${date} ${time} ${zone}`
  const ms = instantsMs.get(name) ?? firstInstantMs(date, time, zone)
  if (instantsMs.size >= MOST_INSTANTS) instantsMs.clear()
  instantsMs.set(name, ms)
  return new Date(ms)
}

/** The first instant with that wall clock, so that the answer does not hang on the season in which it is asked. */
function firstInstantMs(date: string, time: string, zone: string): number {
  const at = DateTime.fromISO(`${date}T${time}`, { zone })
  if (!at.isValid) throw new Error(`No instant for ${date} ${time} in ${zone}`)
  return Math.min(...at.getPossibleOffsets().map((possible) => possible.toMillis()))
}

const dayAfter = (date: string, days: number): string =>
  DateTime.fromISO(date, { zone: 'utc' }).plus({ days }).toISODate() ?? date
