import { DateTime } from 'luxon'
import { type BodyKey, type BodyLook, bodyLooks } from '../sky/body.ts'
import { type SkyEvening, skyEvening } from '../sky/evening.ts'
import { AU_KM } from '../sky/globe.ts'
import { skyPass, starVectors } from '../sky/pass.ts'
import type { Place } from '../sky/place.ts'
import { apparentAltitudeDeg } from '../sky/refraction.ts'
import { saturnRing } from '../sky/saturn.ts'
import { type Faces, facesAt } from './faces.ts'
import { eveningDate, nightHours, noonOf } from './hours.ts'
import type { Night } from './night.ts'
import { placeOf } from './site.ts'
import type { ShowObject } from './target.ts'

/** One kind of value by step of the evening. */
type Track = Float32Array

/**
 * The sky of one evening over one site, every five minutes from two hours before sunset to sunrise (15:00 to 09:00 by
 * the site's clocks where the Sun does not set or rise), and in any case from an hour before the public hours to an hour
 * after them. Place and azimuth of target i at step k stand at i * count + k.
 */
export interface EveningSky {
  readonly key: string
  readonly startsAt: Date
  readonly stepMin: number
  readonly count: number
  readonly targetKeys: readonly string[]
  /** Apparent (refracted) altitude and azimuth in degrees, target-major. */
  readonly altitudeDeg: Float32Array
  readonly azimuthDeg: Float32Array
  /** Without refraction, in degrees, by step. */
  readonly sunAltitudeDeg: Track
  readonly sunAzimuthDeg: Track
  readonly moonAltitudeDeg: Track
  readonly moonAzimuthDeg: Track
  readonly moonPhaseAngleDeg: Track
  readonly moonDistanceKm: Track
  /** How each body of the list, the Sun and the Moon look in the middle of the public hours, and the rings of Saturn, the Moon's face and Jupiter's moons then. */
  readonly looks: Readonly<Partial<Record<BodyKey, BodyLook>>>
  readonly rings: { readonly majorArcsec: number; readonly minorArcsec: number }
  readonly faces: Faces
  readonly events: SkyEvening
}

const MINUTE_MS = 60_000
const STEP_MIN = 5

/** Minutes on either side of the public hours that a sky always holds. */
export const MARGIN_MIN = 60

/** What fixes the sky of a night. */
type Evening = Pick<Night, 'date' | 'opens' | 'closes' | 'site'>

/** Name of an evening's sky: equal keys have equal skies. */
export const eveningKey = ({ date, opens, closes, site }: Evening, catalogueDigest: string): string =>
  [date, opens, closes, site.latitudeDeg, site.longitudeDeg, site.heightM, site.zone, catalogueDigest].join('/')

/** The sky over a night's site on the evening to which its public hours belong, for every object of the list in its order. */
export function eveningSky(night: Evening, objects: readonly ShowObject[], catalogueDigest = ''): EveningSky {
  const place = placeOf(night.site)
  const noonAt = noonOf(eveningDate(night), night.site.zone)
  const events = skyEvening(noonAt, place)
  const instants = instantsOf(night, noonAt, events)
  const key = eveningKey(night, catalogueDigest)
  return skyThrough({ key, instants, stepMin: STEP_MIN, looksAt: middleOf(night), events, place }, objects)
}

/** What fixes a sky: instants that are `stepMin` apart, and the one at which bodies are looked at. */
interface SkyAsk extends Pick<EveningSky, 'key' | 'stepMin' | 'events'> {
  readonly instants: readonly Date[]
  readonly looksAt: Date
  readonly place: Place
}

/** The sky over a place at these instants, for every object in its order. */
export function skyThrough({ instants, looksAt, place, ...given }: SkyAsk, objects: readonly ShowObject[]): EveningSky {
  const ring = saturnRing(looksAt)
  return {
    ...given,
    startsAt: instants[0] ?? looksAt,
    count: instants.length,
    targetKeys: objects.map((object) => object.key),
    ...targetTracks(objects, instants, place),
    ...lightTracks(instants, place),
    looks: looksOf(objects, looksAt, place),
    rings: { majorArcsec: ring.majorArcsec, minorArcsec: ring.minorArcsec },
    faces: facesAt(looksAt),
  }
}

function middleOf(night: Evening): Date {
  const { opensAt, closesAt } = nightHours(night)
  return new Date((opensAt.getTime() + closesAt.getTime()) / 2)
}

function instantsOf(night: Evening, noonAt: Date, { sunsetAt, sunriseAt }: SkyEvening): Date[] {
  const { opensAt, closesAt } = nightHours(night)
  const noon = DateTime.fromJSDate(noonAt, { zone: night.site.zone })
  const afternoonMs = sunsetAt === null ? noon.set({ hour: 15 }).toMillis() : sunsetAt.getTime() - 120 * MINUTE_MS
  const riseMs = sunriseAt?.getTime() ?? 0
  const morningMs = riseMs > afternoonMs ? riseMs : noon.plus({ days: 1 }).set({ hour: 9 }).toMillis()
  const fromMs = Math.min(afternoonMs, opensAt.getTime() - MARGIN_MIN * MINUTE_MS)
  const toMs = Math.max(morningMs, closesAt.getTime() + MARGIN_MIN * MINUTE_MS)
  const stepMs = STEP_MIN * MINUTE_MS
  const firstMs = Math.floor(fromMs / stepMs) * stepMs
  const count = Math.ceil((toMs - firstMs) / stepMs) + 1
  return Array.from({ length: count }, (_, step) => new Date(firstMs + step * stepMs))
}

function targetTracks(objects: readonly ShowObject[], instants: readonly Date[], place: Place) {
  const altitudeDeg = new Float32Array(objects.length * instants.length)
  const azimuthDeg = new Float32Array(objects.length * instants.length)
  const fill = (i: number, step: number, altitude: number, azimuth: number) => {
    altitudeDeg[i * instants.length + step] = altitude
    azimuthDeg[i * instants.length + step] = azimuth
  }
  fillFixed(objects, instants, place, fill)
  fillBodies(objects, instants, place, fill)
  return { altitudeDeg, azimuthDeg }
}

type Fill = (i: number, step: number, altitudeDeg: number, azimuthDeg: number) => void

function fillBodies(objects: readonly ShowObject[], instants: readonly Date[], place: Place, fill: Fill): void {
  const bodies = objects.flatMap(({ body }, i) => (body === null ? [] : [{ i, body }]))
  const keys = bodies.map(({ body }) => body)
  for (const [step, at] of instants.entries()) {
    for (const [row, { altitudeDeg, azimuthDeg }] of bodyLooks(keys, at, place).entries()) {
      fill(bodies[row]?.i ?? 0, step, apparentAltitudeDeg(altitudeDeg), azimuthDeg)
    }
  }
}

function fillFixed(objects: readonly ShowObject[], instants: readonly Date[], place: Place, fill: Fill): void {
  const fixed = objects.flatMap((object, i) => {
    const { raDeg, decDeg, pmRaMasYr, pmDecMasYr, parallaxMas } = object
    return raDeg === null || decDeg === null ? [] : [{ i, star: { raDeg, decDeg, pmRaMasYr, pmDecMasYr, parallaxMas } }]
  })
  const middleAt = instants[instants.length >> 1]
  if (middleAt === undefined || fixed.length === 0) return
  const vectors = starVectors(
    fixed.map(({ star }) => star),
    middleAt,
  )
  const pass = skyPass(vectors, instants, place)
  for (const step of instants.keys()) {
    for (const [row, { i }] of fixed.entries()) {
      const at = step * fixed.length + row
      fill(i, step, pass.altitudeDeg[at] ?? 0, pass.azimuthDeg[at] ?? 0)
    }
  }
}

function lightTracks(instants: readonly Date[], place: Place) {
  const lights = instants.map((at) => bodyLooks(['sun', 'moon'], at, place))
  const suns = lights.flatMap(([sun]) => sun ?? [])
  const moons = lights.flatMap(([, moon]) => moon ?? [])
  return {
    sunAltitudeDeg: Float32Array.from(suns, (look) => look.altitudeDeg),
    sunAzimuthDeg: Float32Array.from(suns, (look) => look.azimuthDeg),
    moonAltitudeDeg: Float32Array.from(moons, (look) => look.altitudeDeg),
    moonAzimuthDeg: Float32Array.from(moons, (look) => look.azimuthDeg),
    moonPhaseAngleDeg: Float32Array.from(moons, (look) => look.phaseAngleDeg),
    moonDistanceKm: Float32Array.from(moons, (look) => look.distanceAu * AU_KM),
  }
}

function looksOf(objects: readonly ShowObject[], at: Date, place: Place): EveningSky['looks'] {
  const keys = new Set<BodyKey>(['sun', 'moon'])
  for (const { body } of objects) if (body !== null) keys.add(body)
  return Object.fromEntries(bodyLooks([...keys], at, place).map((look) => [look.key, look]))
}
