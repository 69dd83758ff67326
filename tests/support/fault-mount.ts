import { degrees, radians, wrap180 } from '../../server/sky/angles.ts'
import { bodyLook } from '../../server/sky/body.ts'
import type { Place } from '../../server/sky/place.ts'
import { apparentAltitudeDeg } from '../../server/sky/refraction.ts'
import { starHorizontal } from '../../server/sky/star.ts'
import type { FaultStage, FaultThing, Miss } from '../../server/tours/faults.ts'

/*
 * A mount reckoned in a way of its own: places as the sky floor gives them, with aberration and the air's lift, and two
 * stars of which the first is kept exactly.
 */

export type Vec = [number, number, number]
export type Look = { altitudeDeg: number; azimuthDeg: number }

/** What the mount was told and how it stands. */
export interface Told {
  at: Date
  place: Place
  base: (v: Vec) => Vec
  unbase: (v: Vec) => Vec
  /** What was centred in the stead of which star. */
  swap: { readonly star: FaultThing; readonly light: FaultThing } | null
}

/** What is missed; null where the mount would not go. */
export function missOf(
  stage: FaultStage,
  told: Told,
  centred: readonly FaultThing[],
  aimed: FaultThing,
  look: (thing: FaultThing) => Look,
): Miss | null {
  const believe = (thing: FaultThing): Look => lookOf(thing, told.at, told.place)
  if (believe(aimed).altitudeDeg <= 0) return null
  const truly = (thing: FaultThing): Vec => vec(look(told.swap?.star === thing ? told.swap.light : thing))
  const thing = look(aimed)
  const tube = direction(pointing())
  return {
    rightDeg: wrap180(thing.azimuthDeg - tube.azimuthDeg) * Math.cos(radians(thing.altitudeDeg)),
    upDeg: thing.altitudeDeg - tube.altitudeDeg,
  }

  function pointing(): Vec {
    const [first, second] = centred
    if (stage === 'before' || !first) return told.base(vec(believe(aimed)))
    if (!second) {
      const [circles, b, to] = [direction(told.unbase(truly(first))), believe(first), believe(aimed)]
      return told.base(
        vec({
          altitudeDeg: to.altitudeDeg + circles.altitudeDeg - b.altitudeDeg,
          azimuthDeg: to.azimuthDeg + circles.azimuthDeg - b.azimuthDeg,
        }),
      )
    }
    const [from, to] = [frame(vec(believe(first)), vec(believe(second))), frame(truly(first), truly(second))]
    const v = vec(believe(aimed))
    const [a = 0, b = 0, c = 0] = from.map((axis) => inner(axis, v))
    return [0, 1, 2].map((i) => a * (to[0][i] ?? 0) + b * (to[1][i] ?? 0) + c * (to[2][i] ?? 0)) as Vec
  }
}

/** The first star itself, the normal of both, and the third: the first star is kept exactly. */
function frame(a: Vec, b: Vec): [Vec, Vec, Vec] {
  const n = outer(a, b)
  const size = Math.hypot(...n)
  const normal: Vec = [n[0] / size, n[1] / size, n[2] / size]
  return [a, normal, outer(a, normal)]
}

const inner = (a: Vec, b: Vec): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
const outer = (a: Vec, b: Vec): Vec => [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]

/** A base turned about the vertical and then leaning, by Rodrigues' formula about a level axis. */
export function standing(turnedDeg: number, leansDeg: number, towardsDeg: number): Pick<Told, 'base' | 'unbase'> {
  // North, east and up are left-handed, so the axis of a lean towards an azimuth lies 90 degrees behind it.
  const axis: Vec = [-Math.sin(radians(towardsDeg)), Math.cos(radians(towardsDeg)), 0]
  const up: Vec = [0, 0, 1]
  return {
    base: (v) => about(axis, about(up, v, turnedDeg), leansDeg),
    unbase: (v) => about(up, about(axis, v, -leansDeg), -turnedDeg),
  }
}

function about(axis: Vec, v: Vec, angleDeg: number): Vec {
  const [cos, sin] = [Math.cos(radians(angleDeg)), Math.sin(radians(angleDeg))]
  const across = outer(axis, v)
  const along = inner(axis, v) * (1 - cos)
  return [0, 1, 2].map((i) => (v[i] ?? 0) * cos + (across[i] ?? 0) * sin + (axis[i] ?? 0) * along) as Vec
}

/** Where a thing is seen. */
export function lookOf({ place: thing }: FaultThing, at: Date, place: Place): Look {
  const { altitudeDeg, azimuthDeg } =
    typeof thing === 'string' ? bodyLook(thing, at, place) : starHorizontal(thing, at, place)
  return { altitudeDeg: apparentAltitudeDeg(altitudeDeg), azimuthDeg }
}

const vec = ({ altitudeDeg, azimuthDeg }: Look): Vec => {
  const [alt, az] = [radians(altitudeDeg), radians(azimuthDeg)]
  return [Math.cos(alt) * Math.cos(az), Math.cos(alt) * Math.sin(az), Math.sin(alt)]
}

const direction = ([x, y, z]: Vec): Look => ({
  altitudeDeg: degrees(Math.atan2(z, Math.hypot(x, y))),
  azimuthDeg: degrees(Math.atan2(y, x)),
})
