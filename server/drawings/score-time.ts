import type { SkyEvening } from '../sky/evening.ts'
import { nightHours, wallClock } from '../tours/hours.ts'
import type { Night } from '../tours/night.ts'
import type { Stop } from '../tours/tour.ts'

/** A moment that holds for the whole row, by its code under `score.`. */
export interface Moment {
  readonly code: string
  readonly at: Date
}

/** The time that a sheet shows, and where a moment stands on it. */
export interface TimeScale {
  readonly fromAt: Date
  readonly toAt: Date
  readonly leftMm: number
  readonly rightMm: number
  readonly mmPerHour: number
  readonly xOf: (at: Date) => number
}

const MINUTE_MS = 60_000
const HOUR_MS = 60 * MINUTE_MS
const QUARTER_MS = 15 * MINUTE_MS
/** Air before the doors open and after they close, so that their lines do not stand at the edge. */
const AIR_MS = 6 * MINUTE_MS

/** The public hours, and any stop beyond them, with a little air on both sides. */
export function rangeOf(night: Night, stops: readonly Stop[]): { fromAt: Date; toAt: Date } {
  const { opensAt, closesAt } = nightHours(night)
  const starts = stops.map(({ startsAt }) => startsAt.getTime())
  const ends = stops.map(({ endsAt }) => endsAt.getTime())
  return {
    fromAt: new Date(Math.min(opensAt.getTime(), ...starts) - AIR_MS),
    toAt: new Date(Math.max(closesAt.getTime(), ...ends) + AIR_MS),
  }
}

/** A scale on which equal times are equally wide. */
export function timeScale(fromAt: Date, toAt: Date, leftMm: number, rightMm: number): TimeScale {
  const mmPerHour = ((rightMm - leftMm) * HOUR_MS) / (toAt.getTime() - fromAt.getTime())
  const xOf = (at: Date): number => leftMm + ((at.getTime() - fromAt.getTime()) * mmPerHour) / HOUR_MS
  return { fromAt, toAt, leftMm, rightMm, mmPerHour, xOf }
}

const SKY_MOMENTS = [
  ['sunset', 'sunsetAt'],
  ['civil', 'civilDuskAt'],
  ['nautical', 'nauticalDuskAt'],
  ['dark', 'astronomicalDuskAt'],
  ['dark-ends', 'astronomicalDawnAt'],
  ['nautical-dawn', 'nauticalDawnAt'],
  ['civil-dawn', 'civilDawnAt'],
  ['sunrise', 'sunriseAt'],
  ['moonrise', 'moonriseAt'],
  ['moonset', 'moonsetAt'],
] as const

/** Doors, dusks and dawns, the Moon and a change of the clocks, as far as they come in the time shown, in order. */
export function momentsOf(night: Night, evening: SkyEvening, { fromAt, toAt }: TimeScale): readonly Moment[] {
  const { opensAt, closesAt } = nightHours(night)
  const sky = SKY_MOMENTS.flatMap(([code, field]) => {
    const at = evening[field]
    return at === null ? [] : [{ code, at }]
  })
  return [
    { code: 'opens', at: opensAt },
    { code: 'closes', at: closesAt },
    ...sky,
    ...clockChanges(night, fromAt, toAt),
  ]
    .filter(({ at }) => at >= fromAt && at <= toAt)
    .sort((a, b) => a.at.getTime() - b.at.getTime())
}

/** Every quarter of the clock in the time shown. */
function quarters(fromAt: Date, toAt: Date): Date[] {
  const first = Math.ceil(fromAt.getTime() / QUARTER_MS) * QUARTER_MS
  const count = Math.max(0, Math.floor((toAt.getTime() - first) / QUARTER_MS) + 1)
  return Array.from({ length: count }, (_, k) => new Date(first + k * QUARTER_MS))
}

/** The hours and half hours of the site's clocks in the time shown. */
export function halfHours(zone: string, { fromAt, toAt }: TimeScale): readonly { at: Date; isHour: boolean }[] {
  return quarters(fromAt, toAt).flatMap((at) => {
    const minute = wallClock(at, zone).slice(3)
    return minute === '00' || minute === '30' ? [{ at, isHour: minute === '00' }] : []
  })
}

const minutesOf = (clock: string): number => 60 * Number(clock.slice(0, 2)) + Number(clock.slice(3))
const DAY_MIN = 1440
const QUARTER_MIN = 15

function clockChanges({ site: { zone } }: Night, fromAt: Date, toAt: Date): Moment[] {
  const all = quarters(fromAt, toAt)
  const clocks = all.map((at) => minutesOf(wallClock(at, zone)))
  return all.flatMap((at, i) => {
    const [before, now] = [clocks[i - 1], clocks[i]]
    if (before === undefined || now === undefined) return []
    const step = (now - before + DAY_MIN) % DAY_MIN
    if (step === QUARTER_MIN) return []
    return [{ code: step > DAY_MIN / 2 || step < QUARTER_MIN ? 'clocks-back' : 'clocks-on', at }]
  })
}
