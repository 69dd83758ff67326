import { clamp, degrees, radians, wrap180, wrap360 } from './angles.ts'
import { bodyAxis, bodyVectorAu, instantOf, moonLibration, rotationToDate } from './engine.ts'
import { latitudeUnderDeg, litFractionOf, positionAngleDeg, turnFromNodeDeg } from './globe.ts'
import { angleDeg, minus, opposite } from './vectors.ts'

/** The Moon's face as it is seen from the Earth's centre, in degrees; longitudes on the Moon are east positive. */
export interface MoonFace {
  /** The point in the middle of the disc. */
  readonly librationLongitudeDeg: number
  readonly librationLatitudeDeg: number
  /** Position angle of the Moon's north pole, -180 up to 180. */
  readonly axisAngleDeg: number
  /** West longitude of the morning terminator, 0 up to 360: about 270 at new Moon, 0 at first quarter, 90 at full Moon. */
  readonly colongitudeDeg: number
  readonly sunLatitudeDeg: number
  /** 0 to 1. */
  readonly litFraction: number
  /** Angle Sun - Moon - Earth, 0 at full Moon, 180 at new Moon. */
  readonly phaseAngleDeg: number
  /** Position angle of the middle of the bright limb, 0 up to 360. */
  readonly brightLimbAngleDeg: number
}

/** The Moon's face at an instant (geocentric; the eye on the ground sees up to 1 degree past it). */
export function moonFace(at: Date): MoonFace {
  const instant = instantOf(at)
  const sight = bodyVectorAu('moon', instant)
  const toSun = minus(bodyVectorAu('sun', instant), sight)
  const { north, spinDeg } = bodyAxis('moon', instant)
  const libration = moonLibration(instant)
  const toDate = rotationToDate(instant)
  const phaseAngleDeg = angleDeg(opposite(sight), toSun)
  return {
    librationLongitudeDeg: libration.longitudeDeg,
    librationLatitudeDeg: libration.latitudeDeg,
    axisAngleDeg: wrap180(positionAngleDeg(sight, north, toDate)),
    colongitudeDeg: wrap360(90 - (turnFromNodeDeg(north, toSun) - spinDeg)),
    sunLatitudeDeg: latitudeUnderDeg(north, toSun),
    litFraction: litFractionOf(phaseAngleDeg),
    phaseAngleDeg,
    brightLimbAngleDeg: positionAngleDeg(sight, toSun, toDate),
  }
}

/**
 * How high the Sun stands over a feature of the Moon, -90 to 90 degrees, 0 on the terminator; longitude EAST positive, north
 * latitude positive, both in degrees (Meeus, 2nd ed., chapter 53).
 */
export function sunAltitudeAtFeature(
  face: Pick<MoonFace, 'colongitudeDeg' | 'sunLatitudeDeg'>,
  longitudeDeg: number,
  latitudeDeg: number,
): number {
  const [sun, lat] = [radians(face.sunLatitudeDeg), radians(latitudeDeg)]
  const hour = radians(face.colongitudeDeg + longitudeDeg)
  const sine = Math.sin(sun) * Math.sin(lat) + Math.cos(sun) * Math.cos(lat) * Math.sin(hour)
  return degrees(Math.asin(clamp(sine, -1, 1)))
}
