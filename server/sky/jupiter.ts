import { degrees, radians, wrap180, wrap360 } from './angles.ts'
import {
  bodyAxis,
  bodyVectorAu,
  type Instant,
  instantOf,
  jupiterMoonStates,
  laterBy,
  rotationToDate,
  terrestrialDays,
} from './engine.ts'
import {
  AU_KM,
  diameterArcsec,
  LIGHT_DAYS_PER_AU,
  latitudeUnderDeg,
  positionAngleDeg,
  RADIUS_KM,
  turnFromNodeDeg,
} from './globe.ts'
import { angleDeg, cross, dot, lengthOf, minus, opposite, plus, turn, unit, type Vector } from './vectors.ts'

/** Jupiter's globe as it is seen from the Earth's centre. */
export interface JupiterFace {
  /** Latitude in the middle of the disc and under the Sun, north positive. */
  readonly tiltEarthDeg: number
  readonly tiltSunDeg: number
  /** West longitude of the lit disc's middle in the clouds of the equator (I) and of the belts and the red spot (II). */
  readonly meridianIDeg: number
  readonly meridianIIDeg: number
  /** Position angle of the north pole, -180 up to 180. */
  readonly positionAngleDeg: number
  readonly equatorialArcsec: number
  readonly polarArcsec: number
}

const MOON_NAMES = ['Io', 'Europa', 'Ganymede', 'Callisto'] as const

/** One of the four bright moons as it is seen beside Jupiter. */
export interface JupiterMoon {
  readonly name: (typeof MOON_NAMES)[number]
  /** From the disc's middle in Jupiter's equatorial radii: west along its equator, north along its axis. */
  readonly xRadii: number
  readonly yRadii: number
  /** It stands before the disc. */
  readonly isInFront: boolean
  /** It cannot be seen: behind the disc or in Jupiter's shadow. */
  readonly isHidden: boolean
  /** It stands between the Sun and the disc: its shadow lies there. */
  readonly castsShadow: boolean
}

/** Polar radius over equatorial radius (IAU 2015: 66,854 km over 71,492 km). */
const FLATTENING_RATIO = 66_854 / 71_492
/** Days from 2000 January 1 noon back to the epoch of the two rotation systems, and their law (Meeus, 2nd ed., ch. 43). */
const SYSTEMS_EPOCH_DAYS = -18_262.5
const SYSTEM_I = { startDeg: 17.71, dailyDeg: 877.90003539 }
const SYSTEM_II = { startDeg: 16.838, dailyDeg: 870.27003539 }

const spinDeg = (system: typeof SYSTEM_I, days: number): number => system.startDeg + system.dailyDeg * days

interface Sight {
  readonly instant: Instant
  /** The instant at which the light left. */
  readonly then: Instant
  readonly sight: Vector
  readonly au: number
  readonly north: Vector
  readonly fromSun: Vector
}

function sightOf(at: Date): Sight {
  const instant = instantOf(at)
  const sight = bodyVectorAu('jupiter', instant)
  const au = lengthOf(sight)
  const then = laterBy(instant, -au * LIGHT_DAYS_PER_AU)
  return {
    instant,
    then,
    sight,
    au,
    north: bodyAxis('jupiter', then).north,
    fromSun: minus(sight, bodyVectorAu('sun', instant)),
  }
}

/** How far the middle of the lit disc lies west of the geometric middle on the globe, in degrees (Meeus, chapter 43). */
function litShiftDeg(sight: Vector, fromSun: Vector, north: Vector): number {
  const size = degrees(Math.sin(radians(angleDeg(sight, fromSun)) / 2) ** 2)
  return dot(cross(sight, fromSun), north) < 0 ? size : -size
}

/** Jupiter's globe at an instant, light time in it: angles in degrees, diameters in arcseconds. */
export function jupiterFace(at: Date): JupiterFace {
  const { instant, then, sight, au, north, fromSun } = sightOf(at)
  const days = terrestrialDays(then) - SYSTEMS_EPOCH_DAYS
  const toDate = rotationToDate(instant)
  const turnDeg =
    turnFromNodeDeg(turn(toDate, north), turn(toDate, opposite(sight))) - litShiftDeg(sight, fromSun, north)
  const equatorialArcsec = diameterArcsec('jupiter', au)
  return {
    tiltEarthDeg: latitudeUnderDeg(north, opposite(sight)),
    tiltSunDeg: latitudeUnderDeg(north, opposite(fromSun)),
    meridianIDeg: wrap360(spinDeg(SYSTEM_I, days) - turnDeg),
    meridianIIDeg: wrap360(spinDeg(SYSTEM_II, days) - turnDeg),
    positionAngleDeg: wrap180(positionAngleDeg(sight, north, toDate)),
    equatorialArcsec,
    polarArcsec: equatorialArcsec * FLATTENING_RATIO,
  }
}

/** A moon's place seen along a line of sight in equatorial radii: west, north, and depth away from the onlooker. */
function across(moonAu: Vector, lineOfSight: Vector, north: Vector): Vector {
  const sight = unit(lineOfSight)
  const west = unit(cross(sight, north))
  const radii = AU_KM / RADIUS_KM.jupiter
  const depthAu = dot(moonAu, sight)
  const nearer = lengthOf(lineOfSight) / (lengthOf(lineOfSight) + depthAu)
  return [dot(moonAu, west) * radii * nearer, dot(moonAu, cross(west, sight)) * radii * nearer, depthAu * radii]
}

const isOverDisc = ([x, y]: Vector): boolean => Math.hypot(x, y / FLATTENING_RATIO) < 1

/**
 * The four bright moons at an instant in the order Io, Europa, Ganymede, Callisto, light time in it; seen from the Earth's
 * centre (Meeus, 2nd ed., chapter 44, counts the same way).
 */
export function jupiterMoons(at: Date): readonly JupiterMoon[] {
  const { then, sight, north, fromSun } = sightOf(at)
  return jupiterMoonStates(then).map(({ placeAu, velocity }, index) => {
    const nearerDays = -dot(placeAu, unit(sight)) * LIGHT_DAYS_PER_AU
    const seenAu = plus(placeAu, velocity, nearerDays)
    const seen = across(seenAu, sight, north)
    const lit = across(seenAu, fromSun, north)
    const isBehind = seen[2] > 0 && isOverDisc(seen)
    const isInShadow = lit[2] > 0 && isOverDisc(lit)
    return {
      name: MOON_NAMES[index] ?? 'Io',
      xRadii: seen[0],
      yRadii: seen[1],
      isInFront: seen[2] < 0 && isOverDisc(seen),
      isHidden: isBehind || isInShadow,
      castsShadow: lit[2] < 0 && isOverDisc(lit),
    }
  })
}
