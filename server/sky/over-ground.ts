import { degrees, radians, wrap360 } from './angles.ts'
import type { BodyKey } from './body.ts'
import { bodyVectorAu, greenwichSiderealDeg, instantOf, rotationToDate } from './engine.ts'
import { AU_KM } from './globe.ts'
import type { Horizontal } from './horizontal.ts'
import type { Place } from './place.ts'
import { type StarPlace, starVector } from './star.ts'
import { fromSphere, lengthOf, minus, turn, type Vector } from './vectors.ts'

const EARTH_KM = 6371
/** Far enough that nobody's place on the ground turns the direction of a star. */
const STARS_AU = 1e9

/** The sky of one instant for many places on the ground: good to a minute of arc, a thousand places in a millisecond. */
export interface GroundSky {
  readonly siderealDeg: number
  /** From the Earth's centre in au, equator and equinox of the date. */
  readonly vectorOf: (thing: StarPlace | BodyKey) => Vector
}

export function groundSky(at: Date): GroundSky {
  const instant = instantOf(at)
  const toDate = rotationToDate(instant)
  return {
    siderealDeg: greenwichSiderealDeg(instant),
    vectorOf(thing) {
      if (typeof thing === 'string') return turn(toDate, bodyVectorAu(thing, instant))
      const [x, y, z] = turn(toDate, starVector(thing, at, [0, 0, 0]))
      return [STARS_AU * x, STARS_AU * y, STARS_AU * z]
    },
  }
}

/** The direction from a place to what stands at a vector from the Earth's centre, the Earth taken as a globe, no refraction. */
export function overGround(vector: Vector, siderealDeg: number, { latitudeDeg, longitudeDeg }: Place): Horizontal {
  const localDeg = siderealDeg + longitudeDeg
  const up = fromSphere(localDeg, latitudeDeg)
  const groundAu = EARTH_KM / AU_KM
  const seen = minus(vector, [groundAu * up[0], groundAu * up[1], groundAu * up[2]])
  const [lat, local] = [radians(latitudeDeg), radians(localDeg)]
  const outward = seen[0] * Math.cos(local) + seen[1] * Math.sin(local)
  const east = seen[1] * Math.cos(local) - seen[0] * Math.sin(local)
  const north = seen[2] * Math.cos(lat) - outward * Math.sin(lat)
  const height = seen[2] * Math.sin(lat) + outward * Math.cos(lat)
  return {
    altitudeDeg: degrees(Math.asin(Math.min(1, Math.max(-1, height / lengthOf(seen))))),
    azimuthDeg: wrap360(degrees(Math.atan2(east, north))),
  }
}
