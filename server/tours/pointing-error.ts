import { type Horizontal, vectorOf } from '../sky/horizontal.ts'
import { cross, dot, type Rotation, turn, type Vector } from '../sky/vectors.ts'

/*
 * A mount that has been centred on two stars knows its attitude as well as those two directions w fix it: information
 * F = sum of (I - w w^T), covariance P = F^-1, in units of one star's centring error squared (Shuster & Oh, J. Guid.
 * Control 4 (1981), 70, covariance form, from memory).
 */

/** One row of F: what both stars tell about the turn about one axis. */
function informationRow(a: Vector, b: Vector, axis: 0 | 1 | 2): Vector {
  const at = (column: 0 | 1 | 2) => (column === axis ? 2 : 0) - a[axis] * a[column] - b[axis] * b[column]
  return [at(0), at(1), at(2)]
}

const scaled = ([x, y, z]: Vector, by: number): Vector => [x * by, y * by, z * by]

/** P by hand; null for two stars in one line with the observer, which leave the turn about that line free. */
function covariance(first: Horizontal, second: Horizontal): Rotation | null {
  const [a, b] = [vectorOf(first), vectorOf(second)]
  const [x, y, z] = [informationRow(a, b, 0), informationRow(a, b, 1), informationRow(a, b, 2)]
  const determinant = dot(x, cross(y, z))
  if (determinant < 1e-12) return null
  // The inverse of a symmetric matrix is symmetric: its columns are its rows.
  return [
    scaled(cross(y, z), 1 / determinant),
    scaled(cross(z, x), 1 / determinant),
    scaled(cross(x, y), 1 / determinant),
  ]
}

const traceOf = ([x, y, z]: Rotation): number => x[0] + y[1] + z[2]

/**
 * By how many times one star's centring error a mount misses after two stars: the mean of sqrt(tr P - t^T P t) over the
 * targets t, or without any target the root mean square over the whole sky, sqrt(2/3 tr P), 1.29 at best. Infinity for
 * stars in one line.
 */
export function meanErrorFactor(first: Horizontal, second: Horizontal, targets: readonly Horizontal[]): number {
  const p = covariance(first, second)
  if (p === null) return Number.POSITIVE_INFINITY
  const trace = traceOf(p)
  if (targets.length === 0) return Math.sqrt((2 / 3) * trace)
  const errors = targets.map(vectorOf).map((t) => Math.sqrt(Math.max(0, trace - dot(t, turn(p, t)))))
  return errors.reduce((sum, error) => sum + error, 0) / errors.length
}
