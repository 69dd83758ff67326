import tzLookup from '@photostructure/tz-lookup'
import { DateTime } from 'luxon'
import { separationDeg } from '../../server/sky/angles.ts'
import { type BodyKey, bodyLook } from '../../server/sky/body.ts'
import { declinationDeg } from '../../server/sky/magnetic.ts'
import type { Place } from '../../server/sky/place.ts'
import { seededRandom } from '../../server/sky/random.ts'
import {
  FAULT_STAGES,
  type FaultCause,
  type FaultQuestion,
  type FaultStage,
  type FaultThing,
  type Miss,
} from '../../server/tours/faults.ts'
import { brightStars } from './bright-stars.ts'
import { type Look, lookOf, missOf, standing, type Told, type Vec } from './fault-mount.ts'

export const NOISE_DEG = 0.5
const LEAST_MISS_DEG = 0.5
const BODIES: readonly BodyKey[] = ['moon', 'venus', 'mars', 'jupiter', 'saturn']
const STARS: readonly FaultThing[] = brightStars().map(({ key, name, magnitude, place }) => ({
  key,
  name,
  magnitude,
  place,
}))

interface FaultCase {
  readonly cause: FaultCause
  readonly question: FaultQuestion
  /** The miss before the noise. */
  readonly trueMiss: Miss
}

/** A case of a mistake from a seed; the same seed, the same case. */
export function faultCase(cause: FaultCause, seed: number): FaultCase {
  const random = seededRandom(seed)
  for (let tries = 0; tries < 3000; tries++) {
    const made = tryCase(cause, random)
    if (made) return made
  }
  throw new Error(`No case of ${cause} from seed ${seed}`)
}

function tryCase(cause: FaultCause, random: () => number): FaultCase | null {
  const place = { latitudeDeg: -58 + 124 * random(), longitudeDeg: -180 + 360 * random(), heightM: 200 }
  const zone = tzLookup(place.latitudeDeg, place.longitudeDeg)
  const at = new Date(Date.UTC(2025, 0, 2) + Math.floor(random() * 1800 * 1440) * 60_000)
  if (bodyLook('sun', at, place).altitudeDeg > -8) return null
  const look = (thing: FaultThing, when = at, where: Place = place): Look => lookOf(thing, when, where)
  const stars = STARS.filter((star) => look(star).altitudeDeg > 8)
  const bodies = BODIES.map((key) => bodyThing(key, at, place)).filter((thing) => look(thing).altitudeDeg > 8)
  const stage = pick(FAULT_STAGES, random)
  const centred = centredStars(stage, stars, look, random)
  const aimed = aimedThing(stage, stars, bodies, centred, random)
  if (!centred || !aimed || look(aimed).altitudeDeg > 80) return null
  const declination = declinationDeg(place, at).declinationDeg
  const told = mistakeOf({ cause, at, place, zone, stage, stars, centred, declination, look, random })
  if (!told) return null
  const question = {
    at,
    place,
    zone,
    declinationDeg: declination,
    stage,
    centred,
    aimed,
    lights: [...stars, ...bodies],
    otherPlaces: [],
  }
  if (cause === 'finder')
    return { cause, question: { ...question, seen: { kind: 'finder' } }, trueMiss: { rightDeg: 0, upDeg: 1 } }
  const trueMiss = missOf(stage, told, centred, aimed, look)
  if (!trueMiss || Math.hypot(trueMiss.rightDeg, trueMiss.upDeg) < LEAST_MISS_DEG) return null
  const seen = {
    kind: 'off' as const,
    rightDeg: trueMiss.rightDeg + NOISE_DEG * gauss(random),
    upDeg: trueMiss.upDeg + NOISE_DEG * gauss(random),
    noiseDeg: NOISE_DEG,
  }
  return { cause, question: { ...question, seen }, trueMiss }
}

interface Setting {
  cause: FaultCause
  at: Date
  place: Place
  zone: string
  stage: FaultStage
  stars: readonly FaultThing[]
  centred: readonly FaultThing[]
  declination: number
  look: (thing: FaultThing) => Look
  random: () => number
}

function mistakeOf(setting: Setting): Told | null {
  const { cause, at, place, random } = setting
  const local = DateTime.fromJSDate(at, { zone: setting.zone })
  const same = (v: Vec): Vec => v
  const right: Told = { at, place, base: same, unbase: same, swap: null }
  const later = (minutes: number): Told => ({ ...right, at: new Date(at.getTime() + minutes * 60_000) })
  switch (cause) {
    case 'hour':
      return later(60 * (random() < 0.5 ? -1 : 1))
    case 'half-day':
      return later(720 * (local.hour < 12 ? 1 : -1))
    case 'zone-sign':
      return local.offset === 0 ? null : later(2 * local.offset)
    case 'day-month': {
      const told = local.set({ day: 1, month: local.day <= 12 ? local.day : 1 }).set({ day: local.month })
      return local.day > 12 || local.day === local.month
        ? null
        : later(
            1440 *
              Math.round(
                told.setZone('utc', { keepLocalTime: true }).diff(local.setZone('utc', { keepLocalTime: true }), 'days')
                  .days,
              ),
          )
    }
    case 'longitude-sign':
      return { ...right, place: { ...place, longitudeDeg: -place.longitudeDeg } }
    case 'latitude-sign':
      return { ...right, place: { ...place, latitudeDeg: -place.latitudeDeg } }
    case 'other-site':
      return { ...right, place: { latitudeDeg: -50 + 110 * random(), longitudeDeg: -180 + 360 * random(), heightM: 0 } }
    case 'magnetic':
      return Math.abs(setting.declination) < 0.5 ? null : { ...right, ...standing(setting.declination, 0, 0) }
    case 'askew':
      return { ...right, ...standing(6 * gauss(random), 2 * Math.hypot(gauss(random), gauss(random)), 360 * random()) }
    case 'wrong-star':
      return swapped(setting, right)
    case 'finder':
      return right
  }
}

function swapped({ stars, centred, random }: Setting, right: Told): Told | null {
  if (centred.length === 0) return null
  const star = pick(centred, random)
  const near = stars.filter(
    (other) => !centred.includes(other) && other.magnitude <= star.magnitude + 1.5 && apart(other, star) < 25,
  )
  return near.length === 0 ? null : { ...right, swap: { star, light: pick(near, random) } }
}

const apart = (a: FaultThing, b: FaultThing): number =>
  typeof a.place === 'string' || typeof b.place === 'string'
    ? 180
    : separationDeg(a.place.raDeg, a.place.decDeg, b.place.raDeg, b.place.decDeg)

const bodyThing = (key: BodyKey, at: Date, place: Place): FaultThing => ({
  key,
  name: key,
  magnitude: bodyLook(key, at, place).magnitude,
  place: key,
})

function centredStars(
  stage: FaultStage,
  stars: readonly FaultThing[],
  look: (thing: FaultThing) => Look,
  random: () => number,
): readonly FaultThing[] | null {
  const able = stars.filter((star) => star.magnitude <= 2 && look(star).altitudeDeg > 15 && look(star).altitudeDeg < 75)
  if (able.length < 2) return stage === 'before' ? [] : null
  if (stage === 'before') return []
  const first = pick(able, random)
  if (stage === 'one') return [first]
  const second = pick(able, random)
  return apart(first, second) > 45 && apart(first, second) < 135 ? [first, second] : null
}

function aimedThing(
  stage: FaultStage,
  stars: readonly FaultThing[],
  bodies: readonly FaultThing[],
  centred: readonly FaultThing[] | null,
  random: () => number,
): FaultThing | null {
  const bright = stars.filter((star) => star.magnitude <= 2.2 && !centred?.includes(star))
  const things = stage === 'both' ? [...bright.slice(0, 4), ...bodies, ...bodies] : [...bright, ...bodies]
  return things.length === 0 ? null : pick(things, random)
}

const pick = <Thing>(list: readonly Thing[], random: () => number): Thing => {
  const found = list[Math.floor(random() * list.length)]
  if (found === undefined) throw new Error('Nothing to pick from')
  return found
}

const gauss = (random: () => number): number =>
  Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random())
