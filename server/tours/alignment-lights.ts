import { type BodyKey, bodyLooks } from '../sky/body.ts'
import type { Horizontal } from '../sky/horizontal.ts'
import { skyPass, starVectors } from '../sky/pass.ts'
import type { Place } from '../sky/place.ts'
import { apparentAltitudeDeg } from '../sky/refraction.ts'
import type { StarPlace } from '../sky/star.ts'
import { type StarColour, starColour } from './star-colour.ts'

/** A bright star with a name, as the catalogue has it: ICRS place and motion at epoch J2000.0, V magnitude, B-V or null. */
export interface BrightStar {
  readonly key: string
  readonly name: string
  readonly magnitude: number
  readonly bv: number | null
  readonly place: StarPlace
}

/** The Moon or a planet under its name. */
export interface NamedBody {
  readonly key: BodyKey
  readonly name: string
}

/** A bright point of the sky, or the Moon: where it is seen now, and where twenty minutes later. */
export interface Light {
  readonly key: string
  readonly name: string
  readonly kind: 'star' | 'planet' | 'moon'
  readonly magnitude: number
  readonly colour: StarColour | null
  /** True where the sky's turning moves it so little that it says nothing about the hour. */
  readonly isNearPole: boolean
  readonly direction: Horizontal
  readonly laterDirection: Horizontal
}

// Common practice, no source.
const STAYS_MS = 20 * 60_000
const NEAR_POLE_DEC_DEG = 85
const BODY_COLOURS: Readonly<Partial<Record<BodyKey, StarColour>>> = {
  mercury: 'pale-yellow',
  venus: 'white',
  mars: 'orange',
  jupiter: 'pale-yellow',
  saturn: 'yellow',
}

/** All stars and bodies at an instant over a place, below the horizon too, in the order given. */
export function lightsOver(
  stars: readonly BrightStar[],
  bodies: readonly NamedBody[],
  at: Date,
  place: Place,
): readonly Light[] {
  const instants: readonly [Date, Date] = [at, new Date(at.getTime() + STAYS_MS)]
  return [...starLights(stars, instants, place), ...bodyLights(bodies, instants, place)]
}

function starLights(stars: readonly BrightStar[], instants: readonly [Date, Date], place: Place): readonly Light[] {
  const vectors = starVectors(
    stars.map((star) => star.place),
    instants[0],
  )
  const pass = skyPass(vectors, instants, place)
  const directionAt = (row: number): Horizontal => ({
    altitudeDeg: pass.altitudeDeg[row] ?? 0,
    azimuthDeg: pass.azimuthDeg[row] ?? 0,
  })
  return stars.map(({ key, name, magnitude, bv, place: { decDeg } }, row) => ({
    key,
    name,
    kind: 'star',
    magnitude,
    colour: starColour(bv),
    isNearPole: Math.abs(decDeg) > NEAR_POLE_DEC_DEG,
    direction: directionAt(row),
    laterDirection: directionAt(stars.length + row),
  }))
}

function bodyLights(bodies: readonly NamedBody[], instants: readonly [Date, Date], place: Place): readonly Light[] {
  const keys = bodies.map(({ key }) => key)
  const [now, later] = [bodyLooks(keys, instants[0], place), bodyLooks(keys, instants[1], place)]
  return bodies.flatMap(({ key, name }, index) => {
    const [look, laterLook] = [now[index], later[index]]
    if (!look || !laterLook) return []
    return {
      key,
      name,
      kind: key === 'moon' ? 'moon' : 'planet',
      magnitude: look.magnitude,
      colour: BODY_COLOURS[key] ?? null,
      isNearPole: false,
      direction: seenFrom(look),
      laterDirection: seenFrom(laterLook),
    }
  })
}

/** The direction in which a thing is seen, the air's lift in it. */
export const seenFrom = ({ altitudeDeg, azimuthDeg }: Horizontal): Horizontal => ({
  altitudeDeg: apparentAltitudeDeg(altitudeDeg),
  azimuthDeg,
})
