import { degrees, radians, wrap360 } from './angles.ts'
import type { BodyKey } from './body.ts'
import { bodyVectorAu, earthMotion, earthTilt, type Instant, instantOf, rotationToDate } from './engine.ts'
import { plus, turn, unit } from './vectors.ts'

const QUARTERS = ['new', 'first-quarter', 'full', 'last-quarter'] as const

/** A new, half or full Moon and its instant. */
export interface MoonQuarter {
  readonly quarter: (typeof QUARTERS)[number]
  readonly at: Date
}

const DAY_MS = 86_400_000
const MINUTE_MS = 60_000

/**
 * The new, half and full Moons in so many days after an instant, in order, to the minute: the Moon's apparent longitude from
 * the Earth's centre is then 0, 90, 180 or 270 degrees ahead of the Sun's (Meeus, 2nd ed., chapter 49).
 */
export function moonQuarters(fromAt: Date, days: number): readonly MoonQuarter[] {
  const found: MoonQuarter[] = []
  for (let day = 0; day < days; day++) {
    const startMs = fromAt.getTime() + day * DAY_MS
    const endMs = Math.min(startMs + DAY_MS, fromAt.getTime() + days * DAY_MS)
    const index = quarterAt(endMs)
    if (index === quarterAt(startMs)) continue
    const quarter = QUARTERS[index]
    if (quarter !== undefined) found.push({ quarter, at: new Date(turnOf(startMs, endMs, index)) })
  }
  return found
}

/** The first minute of a quarter that has begun by the end of the day. */
function turnOf(startMs: number, endMs: number, index: number): number {
  let [before, after] = [startMs, endMs]
  while (after - before > MINUTE_MS) {
    const middle = (before + after) / 2
    if (quarterAt(middle) === index) after = middle
    else before = middle
  }
  return after
}

const quarterAt = (ms: number): number => Math.floor(aheadDeg(new Date(ms)) / 90) % QUARTERS.length

/** How far the Moon's apparent longitude is ahead of the Sun's in degrees, 0 up to 360. */
function aheadDeg(at: Date): number {
  const instant = instantOf(at)
  return wrap360(longitudeDeg('moon', instant) - longitudeDeg('sun', instant))
}

/** The Moon travels with the Earth, so only the Sun is shifted by the Earth's speed. */
function longitudeDeg(key: BodyKey, instant: Instant): number {
  const geometric = unit(bodyVectorAu(key, instant))
  const direction = key === 'moon' ? geometric : plus(geometric, earthMotion(instant).velocityC)
  const [x, y, z] = turn(rotationToDate(instant), direction)
  const tilt = radians(earthTilt(instant).trueTiltDeg)
  return degrees(Math.atan2(y * Math.cos(tilt) + z * Math.sin(tilt), x))
}
