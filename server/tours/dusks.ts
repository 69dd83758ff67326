import { bodyLook } from '../sky/body.ts'
import type { SkyEvening } from '../sky/evening.ts'
import { isSunUp } from '../sky/sun-up.ts'
import { placeOf, type Site } from './site.ts'

type DuskStep = 'sunset' | 'civil' | 'nautical' | 'dark'

/** A step of dusk of one night. */
export interface Dusk {
  readonly step: DuskStep
  /** Null where it does not come. */
  readonly at: Date | null
  /** True where it does not come because the Sun is lower than that all day. */
  readonly isAllDay: boolean
}

/** Each step with the true altitude that the Sun stays under after it. */
const STEPS = [
  ['sunset', 'sunsetAt', (sunDeg: number) => !isSunUp(sunDeg)],
  ['civil', 'civilDuskAt', (sunDeg: number) => sunDeg < -6],
  ['nautical', 'nauticalDuskAt', (sunDeg: number) => sunDeg < -12],
  ['dark', 'astronomicalDuskAt', (sunDeg: number) => sunDeg < -18],
] as const

/** Sunset and the three dusks of an evening; where one does not come, the Sun stands above or below it for good, as at an instant of that evening. */
export function dusksOf(site: Site, evening: Pick<SkyEvening, (typeof STEPS)[number][1]>, at: Date): readonly Dusk[] {
  const sunDeg = bodyLook('sun', at, placeOf(site)).altitudeDeg
  return STEPS.map(([step, field, isBelow], i) => ({
    step,
    at: evening[field],
    isAllDay: STEPS.slice(0, i + 1).every(([, earlier]) => evening[earlier] === null) && isBelow(sunDeg),
  }))
}
