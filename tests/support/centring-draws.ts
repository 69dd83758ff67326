import type { Horizontal } from '../../server/sky/horizontal.ts'
import { seededRandom } from '../../server/sky/random.ts'
import { cross, fromSphere, plus, type Rotation, turn, unit, type Vector } from '../../server/sky/vectors.ts'

/** How far a star is off the middle along each of two axes: a tenth of a degree, in radians. */
const CENTRED_RAD = Math.PI / 1800
/** The draws are told in so many heaps, whose scatter tells how sure their mean is. */
const HEAPS = 50

export interface DrawnError {
  /** The mean over the targets of the root mean square miss, in centring errors, heap by heap. */
  readonly heaps: readonly number[]
  /** The same over all draws. */
  readonly mean: number
  /** The share of misses under twice that mean. */
  readonly underTwice: number
}

/** How far two stars are off the middle, each along two axes, in centring errors. */
type Draw = readonly [number, number, number, number]

/** Normal numbers, the same for the same seed. */
export function normalDraws(count: number, seed: number): readonly Draw[] {
  const random = seededRandom(seed)
  const pairOf = (): readonly [number, number] => {
    const [length, angle] = [Math.sqrt(-2 * Math.log(1 - random())), 2 * Math.PI * random()]
    return [length * Math.cos(angle), length * Math.sin(angle)]
  }
  return Array.from({ length: count }, () => [...pairOf(), ...pairOf()])
}

/** A star as it was centred, off by so much along two directions at right angles to it. */
function centred(star: Vector): (right: number, up: number) => Vector {
  const side = unit(cross(star, Math.abs(star[2]) < 0.9 ? [0, 0, 1] : [1, 0, 0]))
  const other = cross(star, side)
  return (right, up) => unit(plus(plus(star, side, right * CENTRED_RAD), other, up * CENTRED_RAD))
}

/** The axes that two directions span: midway between them, at right angles to both, and the third. */
function axesOf(a: Vector, b: Vector): Rotation {
  const [middle, normal] = [unit(plus(a, b)), unit(cross(a, b))]
  return [middle, normal, cross(middle, normal)]
}

/**
 * A mount takes what it was centred on for two stars, both alike, and turns what it knows of the sky so that their middle
 * and their plane fit; then it is sent to the targets, and each miss is measured.
 */
export function drawnError(
  stars: readonly [Horizontal, Horizontal],
  targets: readonly Horizontal[],
  draws: readonly Draw[],
): DrawnError {
  const [a, b] = [vectorOf(stars[0]), vectorOf(stars[1])]
  const [first, second] = [centred(a), centred(b)]
  const known = axesOf(a, b)
  const goals = targets.map(vectorOf).map((goal) => ({ goal, along: turn(known, goal) }))
  const misses = goals.map(() => new Float64Array(draws.length))
  for (const [k, [right, up, right2, up2]] of draws.entries()) {
    const seen = axesOf(first(right, up), second(right2, up2))
    for (const [i, { goal, along }] of goals.entries()) misses[i]?.fill(missOf(seen, along, goal), k, k + 1)
  }
  const mean = meanOf(misses)
  const size = Math.ceil(draws.length / HEAPS)
  const heaps = Array.from({ length: HEAPS }, (_, k) =>
    meanOf(misses.map((row) => row.subarray(k * size, (k + 1) * size))),
  )
  const under = misses.reduce((sum, row) => sum + row.filter((miss) => miss < 2 * mean).length, 0)
  return { heaps, mean, underTwice: under / (draws.length * goals.length) }
}

/** How far from its goal a mount is sent that takes these axes for the true ones, in centring errors. */
function missOf([x, y, z]: Rotation, [p, q, r]: Vector, goal: Vector): number {
  const off = (axis: 0 | 1 | 2): number => p * x[axis] + q * y[axis] + r * z[axis] - goal[axis]
  const [e, n, u] = [off(0), off(1), off(2)]
  return Math.sqrt(e * e + n * n + u * u) / CENTRED_RAD
}

const vectorOf = ({ azimuthDeg, altitudeDeg }: Horizontal): Vector => fromSphere(azimuthDeg, altitudeDeg)

/** The mean over the targets of the root mean square of their misses. */
function meanOf(misses: readonly Float64Array[]): number {
  const rms = misses.map((row) => Math.sqrt(row.reduce((sum, miss) => sum + miss * miss, 0) / row.length))
  return rms.reduce((sum, each) => sum + each, 0) / misses.length
}
