import { degrees, radians, wrap360 } from './angles.ts'
import type { Equatorial } from './star.ts'

/** The position angle in degrees, 0 up to 360, from north through east, in which a second place of the sky lies from a first. */
export function directionDeg(from: Equatorial, to: Equatorial): number {
  const [dec, otherDec, turn] = [radians(from.decDeg), radians(to.decDeg), radians(to.raDeg - from.raDeg)]
  const east = Math.sin(turn) * Math.cos(otherDec)
  const north = Math.cos(dec) * Math.sin(otherDec) - Math.sin(dec) * Math.cos(otherDec) * Math.cos(turn)
  return wrap360(degrees(Math.atan2(east, north)))
}
