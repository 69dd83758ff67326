import { radians, wrap180 } from './angles.ts'
import { bodyAxis, bodyVectorAu, instantOf, laterBy, rotationToDate } from './engine.ts'
import { LIGHT_DAYS_PER_AU, latitudeUnderDeg, positionAngleDeg } from './globe.ts'
import { lengthOf, minus, opposite } from './vectors.ts'

/** Saturn's ring as it is seen from the Earth's centre. */
export interface SaturnRing {
  /** Height of the Earth above the ring's plane, positive when the north face is seen. */
  readonly tiltEarthDeg: number
  /** Height of the Sun above the ring's plane, positive when the north face is lit. */
  readonly tiltSunDeg: number
  /** Outer edge of the outer bright ring, tip to tip and across. */
  readonly majorArcsec: number
  readonly minorArcsec: number
  /** Position angle of the globe's north pole, -180 up to 180. */
  readonly positionAngleDeg: number
}

/** Tip to tip of the outer bright ring in arcseconds at 1 au (Meeus, 2nd ed., chapter 45). */
const RING_ARCSEC_AU = 375.35

/** Saturn's ring at an instant, light time in it: tilts in degrees (north face positive), axes in arcseconds. */
export function saturnRing(at: Date): SaturnRing {
  const instant = instantOf(at)
  const sight = bodyVectorAu('saturn', instant)
  const au = lengthOf(sight)
  const { north } = bodyAxis('saturn', laterBy(instant, -au * LIGHT_DAYS_PER_AU))
  const tiltEarthDeg = latitudeUnderDeg(north, opposite(sight))
  return {
    tiltEarthDeg,
    tiltSunDeg: latitudeUnderDeg(north, minus(bodyVectorAu('sun', instant), sight)),
    majorArcsec: RING_ARCSEC_AU / au,
    minorArcsec: (RING_ARCSEC_AU / au) * Math.abs(Math.sin(radians(tiltEarthDeg))),
    positionAngleDeg: wrap180(positionAngleDeg(sight, north, rotationToDate(instant))),
  }
}
