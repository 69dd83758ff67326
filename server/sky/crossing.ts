import type { BodyKey } from './body.ts'
import { altitudeCrossingAt, limbCrossingAt } from './engine.ts'
import type { Place } from './place.ts'

/**
 * The next rise of a body in the given days after an instant, or null when there is none: its upper limb touches a sea-level
 * horizon and the air lifts it by 34'. The height of the place is left out on purpose, as almanacs do.
 */
export const nextRise = (key: BodyKey, fromAt: Date, place: Place, days = 1): Date | null =>
  limbCrossingAt(key, 'up', { fromAt, days, place })

/** The next set of a body in the given days after an instant, or null; the same horizon as `nextRise`. */
export const nextSet = (key: BodyKey, fromAt: Date, place: Place, days = 1): Date | null =>
  limbCrossingAt(key, 'down', { fromAt, days, place })

/** The next time in a day that the Sun's centre sinks past a true altitude in degrees, or null. */
export const nextDusk = (sunAltitudeDeg: number, fromAt: Date, place: Place): Date | null =>
  altitudeCrossingAt('sun', 'down', { fromAt, days: 1, place }, sunAltitudeDeg)

/** The next time in a day that the Sun's centre climbs past a true altitude in degrees, or null. */
export const nextDawn = (sunAltitudeDeg: number, fromAt: Date, place: Place): Date | null =>
  altitudeCrossingAt('sun', 'up', { fromAt, days: 1, place }, sunAltitudeDeg)
