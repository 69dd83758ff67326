import { type MoonQuarter, moonQuarters } from '../sky/moon-quarters.ts'
import type { EveningSky } from './evening.ts'
import { instantAtStep } from './sky-at.ts'

/** How many days an evening lies after the nearest new, half and full Moon; less than 0 before it. */
interface MoonDays {
  readonly newDays: number
  readonly firstQuarterDays: number
  readonly fullDays: number
}

/** The Moon of one date. */
export interface DateMoon extends MoonDays {
  readonly litFraction: number
  readonly isWaxing: boolean
  /** Greatest height in the public hours in degrees; less than 0 where it is down in all of them. */
  readonly highestDeg: number
  /** Null when it does not happen in the public hours. */
  readonly risesAt: Date | null
  readonly setsAt: Date | null
}

const DAY_MS = 86_400_000
const MONTH_DAYS = 31
/** A little more than half of the longest month of the Moon. */
const HALF_MOON_DAYS = 16

/** The new, half and full Moons that are nearest to any evening of a month that starts then. */
export const quartersAround = (startsAt: Date): readonly MoonQuarter[] =>
  moonQuarters(new Date(startsAt.getTime() - HALF_MOON_DAYS * DAY_MS), MONTH_DAYS + 2 * HALF_MOON_DAYS)

/** How far an instant lies from each of the quarters. */
function moonDays(at: Date, quarters: readonly MoonQuarter[]): MoonDays {
  const since = (name: MoonQuarter['quarter']): number =>
    quarters
      .filter(({ quarter }) => quarter === name)
      .map((quarter) => (at.getTime() - quarter.at.getTime()) / DAY_MS)
      .reduce((best, days) => (Math.abs(days) < Math.abs(best) ? days : best), Number.POSITIVE_INFINITY)
  return { newDays: since('new'), firstQuarterDays: since('first-quarter'), fullDays: since('full') }
}

const isWaxing = ({ newDays, fullDays }: MoonDays): boolean =>
  Math.abs(newDays) < Math.abs(fullDays) ? newDays >= 0 : fullDays < 0

/** The Moon in the sky of the public hours. */
export function dateMoon(sky: EveningSky, quarters: readonly MoonQuarter[], looksAt: Date): DateMoon {
  const { moonriseAt, moonsetAt } = sky.events
  const [firstAt, lastAt] = [sky.startsAt, instantAtStep(sky, sky.count - 1)]
  const within = (at: Date | null): Date | null => (at !== null && at >= firstAt && at <= lastAt ? at : null)
  const days = moonDays(looksAt, quarters)
  return {
    ...days,
    litFraction: sky.looks.moon?.litFraction ?? 0,
    isWaxing: isWaxing(days),
    highestDeg: Math.max(...sky.moonAltitudeDeg),
    risesAt: within(moonriseAt),
    setsAt: within(moonsetAt),
  }
}
