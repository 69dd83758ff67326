import { bodyLook } from '../sky/body.ts'
import { isSunUp } from '../sky/sun-up.ts'
import { type BrightStar, lightsOver } from './alignment-lights.ts'
import { type AlignmentNight, centrable, FAINTEST_MAG, inReach } from './alignment-stars.ts'
import { placeOf } from './site.ts'

/** Why no pair can be had: some of the Sun is up, the sky is too bright for two stars, or fewer than two stand within reach. */
export type NoPairCause = 'sun' | 'bright' | 'place'

/** What stands in the way of two alignment stars at an instant, and when they can be had. */
export interface AlignmentOutlook {
  /** Null where two stars can be centred at once. */
  readonly cause: NoPairCause | null
  /** The first instant with two stars, to five minutes; null when none comes in time. */
  readonly fromAt: Date | null
}

const STEP_MS = 5 * 60_000
const LEAST_STARS = 2

/** Why there is no pair of stars at an instant; null where there is one. */
export function noPairCause(stars: readonly BrightStar[], night: AlignmentNight, at: Date): NoPairCause | null {
  const place = placeOf(night.site)
  if (isSunUp(bodyLook('sun', at, place).altitudeDeg)) return 'sun'
  const bright = stars.filter(({ magnitude }) => magnitude <= FAINTEST_MAG)
  const lights = lightsOver(bright, [], at, place)
  if (centrable(lights, night, at).length >= LEAST_STARS) return null
  return inReach(lights, night).length >= LEAST_STARS ? 'bright' : 'place'
}

/** The instants at which the outlook looks: at once, then every five minutes by the hour, to the end and without it. */
export function* outlookInstants(at: Date, untilAt: Date): Generator<Date> {
  yield at
  for (let ms = (Math.floor(at.getTime() / STEP_MS) + 1) * STEP_MS; ms < untilAt.getTime(); ms += STEP_MS) {
    yield new Date(ms)
  }
}
