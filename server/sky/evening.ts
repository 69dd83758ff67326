import { bodyLook } from './body.ts'
import { nextDawn, nextDusk, nextRise, nextSet } from './crossing.ts'
import type { Place } from './place.ts'
import { isSunUp } from './sun-up.ts'

/** The turning points of one night, each null when it does not happen in the 24 hours after that noon. */
export interface SkyEvening {
  readonly sunsetAt: Date | null
  readonly civilDuskAt: Date | null
  readonly nauticalDuskAt: Date | null
  readonly astronomicalDuskAt: Date | null
  readonly astronomicalDawnAt: Date | null
  readonly nauticalDawnAt: Date | null
  readonly civilDawnAt: Date | null
  readonly sunriseAt: Date | null
  readonly moonriseAt: Date | null
  readonly moonsetAt: Date | null
}

/** True altitude of the Sun's centre at the end of civil, nautical and astronomical twilight. */
const CIVIL_DEG = -6
const NAUTICAL_DEG = -12
const ASTRONOMICAL_DEG = -18

/**
 * The turning points of the night that follows a noon, searched in the 24 hours after it; null for what does not happen.
 * Rise and set: upper limb, sea-level horizon, 34' of refraction. Twilights: the Sun's centre 6, 12 and 18 degrees below the
 * horizon. A Sun that is down again by that noon, as close to the polar night, has set before it. The Moon's are its first rise and first set after that noon, in whichever order they come.
 */
export const skyEvening = (noonAt: Date, place: Place): SkyEvening => ({
  sunsetAt: sunsetOf(noonAt, place),
  civilDuskAt: nextDusk(CIVIL_DEG, noonAt, place),
  nauticalDuskAt: nextDusk(NAUTICAL_DEG, noonAt, place),
  astronomicalDuskAt: nextDusk(ASTRONOMICAL_DEG, noonAt, place),
  astronomicalDawnAt: nextDawn(ASTRONOMICAL_DEG, noonAt, place),
  nauticalDawnAt: nextDawn(NAUTICAL_DEG, noonAt, place),
  civilDawnAt: nextDawn(CIVIL_DEG, noonAt, place),
  sunriseAt: nextRise('sun', noonAt, place),
  moonriseAt: nextRise('moon', noonAt, place),
  moonsetAt: nextSet('moon', noonAt, place),
})

const HALF_DAY_MS = 43_200_000

/** The sunset that begins the night: the next one, but not that of the day after where today's has been before noon. */
function sunsetOf(noonAt: Date, place: Place): Date | null {
  const next = nextSet('sun', noonAt, place)
  const isOfToday = next !== null && next.getTime() - noonAt.getTime() < HALF_DAY_MS
  if (isOfToday || isSunUp(bodyLook('sun', noonAt, place).altitudeDeg)) return next
  return nextSet('sun', new Date(noonAt.getTime() - HALF_DAY_MS), place, 0.5)
}
