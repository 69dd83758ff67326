import {
  bodyAxis,
  bodyVectorAu,
  earthMotion,
  greenwichSiderealDeg,
  groundMotion,
  type Instant,
  instantOf,
  rotationToDate,
} from './engine.ts'
import { diameterArcsec, latitudeUnderDeg, litFractionOf } from './globe.ts'
import { toHorizontal } from './horizontal.ts'
import { magnitudeOf } from './magnitude.ts'
import type { Place } from './place.ts'
import { yearsSinceEpoch } from './time.ts'
import {
  angleDeg,
  lengthOf,
  minus,
  opposite,
  plus,
  type Rotation,
  toSphere,
  turn,
  unit,
  type Vector,
} from './vectors.ts'

/** The Sun, the Moon and the planets that a telescope shows. */
export const BODY_KEYS = ['sun', 'moon', 'mercury', 'venus', 'mars', 'jupiter', 'saturn', 'uranus', 'neptune'] as const

export type BodyKey = (typeof BODY_KEYS)[number]

/** How a body stands and looks from one place at one instant. */
export interface BodyLook {
  readonly key: BodyKey
  /** Apparent right ascension and declination from the place, equator and equinox of the date. */
  readonly raDeg: number
  readonly decDeg: number
  /** Without refraction. */
  readonly altitudeDeg: number
  readonly azimuthDeg: number
  readonly distanceAu: number
  readonly magnitude: number
  /** Equatorial diameter. */
  readonly diameterArcsec: number
  /** Angle Sun - body - place, 0 (full) to 180 (new); 0 for the Sun. */
  readonly phaseAngleDeg: number
  /** 0 to 1, as seen from the place. */
  readonly litFraction: number
  /** Angle between the body and the Sun, 0 to 180. */
  readonly elongationDeg: number
}

/** What all bodies share at one instant over one place; vectors from the place in au, velocities as a share of light's. */
interface Scene {
  readonly instant: Instant
  readonly place: Place
  readonly siderealDeg: number
  readonly toDate: Rotation
  readonly groundAu: Vector
  readonly groundC: Vector
  readonly earthC: Vector
  readonly toSun: Vector
  readonly year: number
}

function sceneOf(at: Date, place: Place): Scene {
  const instant = instantOf(at)
  const ground = groundMotion(instant, place)
  return {
    instant,
    place,
    siderealDeg: greenwichSiderealDeg(instant),
    toDate: rotationToDate(instant),
    groundAu: ground.placeAu,
    groundC: ground.velocityC,
    earthC: earthMotion(instant).velocityC,
    toSun: minus(bodyVectorAu('sun', instant), ground.placeAu),
    year: 2000 + yearsSinceEpoch(at),
  }
}

/** Apparent right ascension and declination; the Moon travels with the Earth, so only the ground's motion bends its light. */
function apparent(key: BodyKey, scene: Scene, toBody: Vector): { readonly raDeg: number; readonly decDeg: number } {
  const velocityC = key === 'moon' ? scene.groundC : plus(scene.groundC, scene.earthC)
  return toSphere(turn(scene.toDate, plus(unit(toBody), velocityC)))
}

/** Only these two planets' brightness depends on the way they lean. */
function tiltsOf(key: BodyKey, instant: Instant, toBody: Vector, bodyToSun: Vector): readonly [number, number] {
  if (key !== 'saturn' && key !== 'uranus') return [0, 0]
  const { north } = bodyAxis(key, instant)
  return [latitudeUnderDeg(north, opposite(toBody)), latitudeUnderDeg(north, bodyToSun)]
}

type Light = Pick<BodyLook, 'magnitude' | 'phaseAngleDeg' | 'litFraction' | 'elongationDeg'>

function sunLight(au: number, year: number): Light {
  const lighting = { sunAu: 0, au, phaseAngleDeg: 0, tiltDeg: 0, tiltSunDeg: 0, year }
  return { magnitude: magnitudeOf('sun', lighting), phaseAngleDeg: 0, litFraction: 1, elongationDeg: 0 }
}

function lightOf(key: BodyKey, { instant, toSun, year }: Scene, toBody: Vector): Light {
  const au = lengthOf(toBody)
  if (key === 'sun') return sunLight(au, year)
  const bodyToSun = minus(toSun, toBody)
  const phaseAngleDeg = angleDeg(opposite(toBody), bodyToSun)
  const [tiltDeg, tiltSunDeg] = tiltsOf(key, instant, toBody, bodyToSun)
  const lighting = { sunAu: lengthOf(bodyToSun), au, phaseAngleDeg, tiltDeg, tiltSunDeg, year }
  return {
    magnitude: magnitudeOf(key, lighting),
    phaseAngleDeg,
    litFraction: litFractionOf(phaseAngleDeg),
    elongationDeg: angleDeg(toBody, toSun),
  }
}

function lookIn(scene: Scene, key: BodyKey): BodyLook {
  const toBody = key === 'sun' ? scene.toSun : minus(bodyVectorAu(key, scene.instant), scene.groundAu)
  const { raDeg, decDeg } = apparent(key, scene, toBody)
  const hourAngleDeg = scene.siderealDeg + scene.place.longitudeDeg - raDeg
  const distanceAu = lengthOf(toBody)
  return {
    key,
    raDeg,
    decDeg,
    ...toHorizontal(hourAngleDeg, decDeg, scene.place.latitudeDeg),
    distanceAu,
    diameterArcsec: diameterArcsec(key, distanceAu),
    ...lightOf(key, scene, toBody),
  }
}

/** How a body stands and looks from a place at an instant; every number is as seen from the ground there, not from the Earth's centre. */
export const bodyLook = (key: BodyKey, at: Date, place: Place): BodyLook => lookIn(sceneOf(at, place), key)

/** The same for several bodies at one instant, in the order of the keys; cheaper than asking one by one. */
export function bodyLooks(keys: readonly BodyKey[], at: Date, place: Place): readonly BodyLook[] {
  const scene = sceneOf(at, place)
  return keys.map((key) => lookIn(scene, key))
}
