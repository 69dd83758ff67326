import {
  type AstroTime,
  BaryState,
  Body,
  C_AUDAY,
  Constellation,
  e_tilt,
  GeoVector,
  JupiterMoons,
  Libration,
  MakeTime,
  Observer,
  ObserverState,
  Rotation_EQJ_EQD,
  Rotation_EQJ_HOR,
  RotationAxis,
  type RotationMatrix,
  SearchAltitude,
  SearchRiseSet,
  SetDeltaTFunction,
  SiderealTime,
} from 'astronomy-engine'
import { clamp } from './angles.ts'
import type { BodyKey } from './body.ts'
import { deltaTSec } from './delta-t.ts'
import type { Place } from './place.ts'
import type { Rotation, Vector } from './vectors.ts'

/** An instant as the ephemeris library keeps it; one shared by many questions spares the nutation series. */
export type Instant = AstroTime

const BODIES: Readonly<Record<BodyKey, Body>> = {
  sun: Body.Sun,
  moon: Body.Moon,
  mercury: Body.Mercury,
  venus: Body.Venus,
  mars: Body.Mars,
  jupiter: Body.Jupiter,
  saturn: Body.Saturn,
  uranus: Body.Uranus,
  neptune: Body.Neptune,
}

// The library's own guess of delta T is 6 s off in 2026, which moves the Moon by 3".
SetDeltaTFunction(deltaTSec)

/** The library throws bare strings; the rest of the service is promised errors. */
function guarded<T>(work: () => T): T {
  try {
    return work()
  } catch (cause) {
    throw cause instanceof Error ? cause : new Error(`ephemeris: ${String(cause)}`)
  }
}

/** The library prints a stack trace for a number that is not finite, so such numbers are stopped here. */
function finite(value: number, what: string): number {
  if (!Number.isFinite(value)) throw new Error(`ephemeris: ${what} is not a finite number`)
  return value
}

const observerOf = (place: Place): Observer =>
  new Observer(
    finite(place.latitudeDeg, 'latitude'),
    finite(place.longitudeDeg, 'longitude'),
    finite(place.heightM, 'height'),
  )

const rowsOf = ({ rot }: RotationMatrix): Rotation => {
  const cell = (column: number, row: number): number => finite(rot[column]?.[row] ?? Number.NaN, 'rotation')
  const row = (index: number): Vector => [cell(0, index), cell(1, index), cell(2, index)]
  return [row(0), row(1), row(2)]
}

const vectorOf = ({ x, y, z }: { x: number; y: number; z: number }): Vector => [x, y, z]

/** The library's instant for a date; throws an Error on an invalid date. */
export function instantOf(at: Date): Instant {
  finite(at.getTime(), 'instant')
  return guarded(() => MakeTime(at))
}

/** The instant so many days (may be negative) later. */
export const laterBy = (instant: Instant, days: number): Instant => guarded(() => instant.AddDays(finite(days, 'days')))

/** Terrestrial days since 2000 January 1 noon. */
export const terrestrialDays = (instant: Instant): number => instant.tt

/** Apparent sidereal time at Greenwich in degrees, 0 up to 360. */
export const greenwichSiderealDeg = (instant: Instant): number => guarded(() => SiderealTime(instant)) * 15

/** Nutation in longitude, and the mean and true tilt of the Earth's axis to its orbit, in degrees. */
export function earthTilt(instant: Instant): { nutationDeg: number; meanTiltDeg: number; trueTiltDeg: number } {
  const tilt = guarded(() => e_tilt(instant))
  return { nutationDeg: tilt.dpsi / 3600, meanTiltDeg: tilt.mobl, trueTiltDeg: tilt.tobl }
}

/** Rotation from the ICRS (taken as equator and equinox J2000) to the true equator and equinox of the date. */
export const rotationToDate = (instant: Instant): Rotation => guarded(() => rowsOf(Rotation_EQJ_EQD(instant)))

/** Rotation from the ICRS to the horizon of a place: axes north, WEST, zenith. */
export const rotationToHorizon = (instant: Instant, place: Place): Rotation =>
  guarded(() => rowsOf(Rotation_EQJ_HOR(instant, observerOf(place))))

/** Place of the Earth's centre from the solar system's barycentre in au, and its velocity as a share of light's; ICRS. */
export function earthMotion(instant: Instant): { placeAu: Vector; velocityC: Vector } {
  const { x, y, z, vx, vy, vz } = guarded(() => BaryState(Body.Earth, instant))
  return { placeAu: [x, y, z], velocityC: [vx / C_AUDAY, vy / C_AUDAY, vz / C_AUDAY] }
}

/** Place of an observer from the Earth's centre in au, and the velocity the turning Earth gives as a share of light's; ICRS. */
export function groundMotion(instant: Instant, place: Place): { placeAu: Vector; velocityC: Vector } {
  const { x, y, z, vx, vy, vz } = guarded(() => ObserverState(instant, observerOf(place), false))
  return { placeAu: [x, y, z], velocityC: [vx / C_AUDAY, vy / C_AUDAY, vz / C_AUDAY] }
}

/** Vector in au from the Earth's centre to a body where its light left it, without aberration; ICRS. */
export const bodyVectorAu = (key: BodyKey, instant: Instant): Vector =>
  guarded(() => vectorOf(GeoVector(BODIES[key], instant, false)))

/** North pole (ICRS unit vector) and spin angle (degrees from the node on the ICRS equator) of a body's globe. */
export function bodyAxis(key: BodyKey, instant: Instant): { north: Vector; spinDeg: number } {
  const axis = guarded(() => RotationAxis(BODIES[key], instant))
  return { north: vectorOf(axis.north), spinDeg: axis.spin }
}

/** The Moon's libration seen from the Earth's centre in degrees: east and north positive, optical and physical together. */
export function moonLibration(instant: Instant): { longitudeDeg: number; latitudeDeg: number } {
  const { elon, elat } = guarded(() => Libration(instant))
  return { longitudeDeg: elon, latitudeDeg: elat }
}

/** Io, Europa, Ganymede and Callisto from Jupiter's centre: au and au a day, ICRS, without light time. */
export function jupiterMoonStates(instant: Instant): readonly { placeAu: Vector; velocity: Vector }[] {
  const { io, europa, ganymede, callisto } = guarded(() => JupiterMoons(instant))
  return [io, europa, ganymede, callisto].map((moon) => ({
    placeAu: vectorOf(moon),
    velocity: [moon.vx, moon.vy, moon.vz],
  }))
}

/** When a search begins, where, and for how many days it looks ahead. */
interface Span {
  readonly fromAt: Date
  readonly days: number
  readonly place: Place
}

const dateOrNull = (found: AstroTime | null): Date | null => (found === null ? null : new Date(found.date.getTime()))
const sign = (way: 'up' | 'down'): 1 | -1 => (way === 'up' ? 1 : -1)

/**
 * When the upper limb of a body next touches the horizon of a place taken at sea level, 34' of refraction counted; null
 * when it does not in the span.
 */
export const limbCrossingAt = (key: BodyKey, way: 'up' | 'down', span: Span): Date | null =>
  guarded(() => {
    const observer = observerOf({ ...span.place, heightM: 0 })
    return dateOrNull(
      SearchRiseSet(BODIES[key], observer, sign(way), instantOf(span.fromAt), finite(span.days, 'days')),
    )
  })

/** When a body's centre next passes a true altitude (degrees) upward or downward; null when it does not in the span. */
export const altitudeCrossingAt = (key: BodyKey, way: 'up' | 'down', span: Span, altitudeDeg: number): Date | null =>
  guarded(() => {
    const height = clamp(finite(altitudeDeg, 'altitude'), -90, 90)
    const observer = observerOf({ ...span.place, heightM: 0 })
    const from = instantOf(span.fromAt)
    return dateOrNull(SearchAltitude(BODIES[key], observer, sign(way), from, finite(span.days, 'days'), height))
  })

/** IAU code (three letters) of the constellation around a J2000 direction in degrees. */
export const constellationCode = (raDeg: number, decDeg: number): string =>
  guarded(() => Constellation(finite(raDeg, 'right ascension') / 15, finite(decDeg, 'declination')).symbol)
