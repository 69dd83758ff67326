import { bodyLook } from '../sky/body.ts'
import type { Place } from '../sky/place.ts'
import { type BrightStar, lightsOver, type NamedBody } from './alignment-lights.ts'
import type { FaultThing } from './faults.ts'
import type { ShowObject } from './target.ts'

/** What a mount can be sent to now, by kind: bodies, bright stars, and targets of the programme. */
export interface FaultThings {
  readonly bodies: readonly FaultThing[]
  readonly stars: readonly FaultThing[]
  readonly targets: readonly FaultThing[]
}

interface Known {
  /** Named stars down to V 3. */
  readonly stars: readonly BrightStar[]
  readonly objects: readonly ShowObject[]
  readonly targetKeys: readonly string[]
}

/** Lower than this nobody aims at anything. */
const LOWEST_DEG = 5
/** Fainter planets are found by nobody without a mount that is set up. */
const FAINTEST_BODY_MAG = 2

/** Everything that stands high enough at an instant; stars by brightness. */
export function faultThings({ stars, objects, targetKeys }: Known, at: Date, place: Place): FaultThings {
  const bodies: NamedBody[] = objects.flatMap(({ body, name }) => (body === null ? [] : [{ key: body, name }]))
  const isUp = new Set(
    lightsOver(stars, bodies, at, place)
      .filter(({ direction }) => direction.altitudeDeg >= LOWEST_DEG)
      .map(({ key }) => key),
  )
  return {
    bodies: bodies
      .filter(({ key }) => isUp.has(key) && key !== 'sun')
      .map(({ key, name }) => ({ key, name, magnitude: bodyLook(key, at, place).magnitude, place: key }))
      .filter(({ magnitude }) => magnitude <= FAINTEST_BODY_MAG),
    stars: stars
      .filter(({ key }) => isUp.has(key))
      .map(({ key, name, magnitude, place: star }) => ({ key, name, magnitude, place: star }))
      .toSorted((a, b) => a.magnitude - b.magnitude),
    targets: objects.filter(({ key, body }) => body === null && targetKeys.includes(key)).flatMap(targetOf),
  }
}

function targetOf({ key, name, magnitude, raDeg, decDeg, ...motion }: ShowObject): readonly FaultThing[] {
  if (raDeg === null || decDeg === null) return []
  const { pmRaMasYr, pmDecMasYr, parallaxMas } = motion
  return [
    {
      key,
      name,
      magnitude: magnitude ?? Number.POSITIVE_INFINITY,
      place: { raDeg, decDeg, pmRaMasYr, pmDecMasYr, parallaxMas },
    },
  ]
}

/** The thing under a key, if it is among them. */
export const thingNamed = ({ bodies, stars, targets }: FaultThings, key: string): FaultThing | undefined =>
  [...bodies, ...stars, ...targets].find((thing) => thing.key === key)
