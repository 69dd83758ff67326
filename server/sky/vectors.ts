import { degrees, radians, wrap360 } from './angles.ts'

/** Three numbers: equatorial axes (equinox, 90 degrees east of it, north pole) unless a function says otherwise. */
export type Vector = readonly [number, number, number]

/** The three rows of a rotation. */
export type Rotation = readonly [Vector, Vector, Vector]

/** The scalar product of two vectors. */
export const dot = (a: Vector, b: Vector): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2]

/** The vector product of two vectors, right-handed. */
export const cross = (a: Vector, b: Vector): Vector => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
]

/** The first vector plus `scale` times the second. */
export const plus = (a: Vector, b: Vector, scale = 1): Vector => [
  a[0] + scale * b[0],
  a[1] + scale * b[1],
  a[2] + scale * b[2],
]

/** The first vector minus the second. */
export const minus = (a: Vector, b: Vector): Vector => plus(a, b, -1)

/** The vector of the opposite direction. */
export const opposite = (a: Vector): Vector => [-a[0], -a[1], -a[2]]

/** The length of a vector in its own unit. */
export const lengthOf = (a: Vector): number => Math.hypot(a[0], a[1], a[2])

/** The vector of length 1 in the same direction; the vector must not be zero. */
export function unit(a: Vector): Vector {
  const size = lengthOf(a)
  return [a[0] / size, a[1] / size, a[2] / size]
}

/** The vector after a rotation. */
export const turn = (rotation: Rotation, a: Vector): Vector => [
  dot(rotation[0], a),
  dot(rotation[1], a),
  dot(rotation[2], a),
]

/** The angle between two vectors in degrees, 0 to 180, exact for tiny and for opposite pairs. */
export const angleDeg = (a: Vector, b: Vector): number => degrees(Math.atan2(lengthOf(cross(a, b)), dot(a, b)))

/** The unit vector of a right ascension and declination in degrees. */
export function fromSphere(lonDeg: number, latDeg: number): Vector {
  const [lon, lat] = [radians(lonDeg), radians(latDeg)]
  return [Math.cos(lat) * Math.cos(lon), Math.cos(lat) * Math.sin(lon), Math.sin(lat)]
}

/** Right ascension (0 up to 360) and declination (-90 to 90) of a vector, in degrees. */
export function toSphere(a: Vector): { readonly raDeg: number; readonly decDeg: number } {
  return {
    raDeg: wrap360(degrees(Math.atan2(a[1], a[0]))),
    decDeg: degrees(Math.atan2(a[2], Math.hypot(a[0], a[1]))),
  }
}
