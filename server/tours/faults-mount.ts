import { degrees, radians, wrap180, wrap360 } from '../sky/angles.ts'
import { type Horizontal, vectorOf } from '../sky/horizontal.ts'
import { cross, dot, plus, unit, type Vector } from '../sky/vectors.ts'
import type { FaultStage, Miss } from './faults.ts'

/** How the base of a mount stands on the ground: its north turned to the east, its head leaning towards an azimuth. */
export interface Stand {
  readonly turnedDeg: number
  readonly leansDeg: number
  readonly towardsDeg: number
}

/** Which of two centred stars a mount keeps where it is when the two do not fit: mounts differ in that. */
export type Keeps = 'neither' | 'first' | 'second'

export const UPRIGHT: Stand = { turnedDeg: 0, leansDeg: 0, towardsDeg: 0 }

/** What the mount believes of where things stand, and what is true. */
interface Slew {
  readonly stage: FaultStage
  readonly stand: Stand
  readonly keeps: Keeps
  /** The stars set up on: where the mount believes that each stands, and where what was centred truly stood. */
  readonly centred: readonly { readonly believed: Horizontal; readonly truly: Horizontal }[]
  readonly aimedBelieved: Horizontal
}

const turnedBy = ([x, y, z]: Vector, angleDeg: number): Vector => {
  const [cos, sin] = [Math.cos(radians(angleDeg)), Math.sin(radians(angleDeg))]
  return [cos * x - sin * y, sin * x + cos * y, z]
}

const leaningBy = ([x, y, z]: Vector, angleDeg: number): Vector => {
  const [cos, sin] = [Math.cos(radians(angleDeg)), Math.sin(radians(angleDeg))]
  return [cos * x + sin * z, y, cos * z - sin * x]
}

const directionOf = ([x, y, z]: Vector): Horizontal => ({
  altitudeDeg: degrees(Math.atan2(z, Math.hypot(x, y))),
  azimuthDeg: wrap360(degrees(Math.atan2(y, x))),
})

/** From what the base takes for north and up to what is. */
const toGround = (v: Vector, { turnedDeg, leansDeg, towardsDeg }: Stand): Vector =>
  turnedBy(leaningBy(turnedBy(v, turnedDeg - towardsDeg), leansDeg), towardsDeg)

const toBase = (v: Vector, { turnedDeg, leansDeg, towardsDeg }: Stand): Vector =>
  turnedBy(leaningBy(turnedBy(v, -towardsDeg), -leansDeg), towardsDeg - turnedDeg)

/** Three axes that two directions fix, one of them along what is kept. */
function axesOf(a: Vector, b: Vector, keeps: Keeps): readonly [Vector, Vector, Vector] {
  const normal = unit(cross(a, b))
  const kept = { neither: unit(plus(a, b)), first: a, second: b }[keeps]
  return [kept, normal, cross(kept, normal)]
}

/**
 * Where a mount points after a slew. Before any star it takes its base for level and turned to the north; one centred star
 * shifts both its circles; two turn its whole sky so that what it believes of both fits where they truly stood, and how the
 * base stands no longer matters.
 */
export function pointsAt({ stage, stand, keeps, centred, aimedBelieved }: Slew): Horizontal {
  const [first, second] = centred
  if (stage === 'before' || !first) return directionOf(toGround(vectorOf(aimedBelieved), stand))
  if (stage === 'one' || !second) {
    const onCircles = directionOf(toBase(vectorOf(first.truly), stand))
    const altitudeDeg = aimedBelieved.altitudeDeg + onCircles.altitudeDeg - first.believed.altitudeDeg
    const azimuthDeg = aimedBelieved.azimuthDeg + onCircles.azimuthDeg - first.believed.azimuthDeg
    return directionOf(toGround(vectorOf({ altitudeDeg, azimuthDeg }), stand))
  }
  const believed = axesOf(vectorOf(first.believed), vectorOf(second.believed), keeps)
  const [x, y, z] = axesOf(vectorOf(first.truly), vectorOf(second.truly), keeps)
  const [a, b, c] = believed.map((axis) => dot(axis, vectorOf(aimedBelieved))) as [number, number, number]
  return directionOf(plus(plus(plus([0, 0, 0], x, a), y, b), z, c))
}

/** Where a thing stands seen from where the tube points: to the side along the thing's own height, and up. */
export const missOf = (thing: Horizontal, tube: Horizontal): Miss => ({
  rightDeg: wrap180(thing.azimuthDeg - tube.azimuthDeg) * Math.cos(radians(thing.altitudeDeg)),
  upDeg: thing.altitudeDeg - tube.altitudeDeg,
})
