import { degrees, radians, wrap360 } from '../sky/angles.ts'
import { type Horizontal, vectorOf } from '../sky/horizontal.ts'
import { skyPass, starVectors } from '../sky/pass.ts'
import type { Place } from '../sky/place.ts'
import type { StarPlace } from '../sky/star.ts'
import { dot, plus, toSphere, type Vector } from '../sky/vectors.ts'

/** A place on a flat chart that is held up against the sky, in degrees from its middle. */
interface Flat {
  readonly rightDeg: number
  readonly upDeg: number
}

/**
 * A piece of the sky made flat, the zenith up in its middle and what lies farther round the compass to the right. It keeps
 * angles and leaves circles round (Snyder, Map Projections, USGS 1395, 1987, chapter 21, stereographic; from memory).
 */
export interface Frame {
  readonly middle: Horizontal
  readonly flat: (place: Horizontal) => Flat
  /** By how much a small thing at a place is drawn larger than in the middle. */
  readonly stretch: (place: Horizontal) => number
}

/** The frame around a middle; straight overhead its top is the way that the azimuth says. */
export function frameAt(middle: Horizontal): Frame {
  const [azimuth, altitude] = [radians(middle.azimuthDeg), radians(middle.altitudeDeg)]
  const towards = vectorOf(middle)
  const right: Vector = [-Math.sin(azimuth), Math.cos(azimuth), 0]
  const up: Vector = [
    -Math.sin(altitude) * Math.cos(azimuth),
    -Math.sin(altitude) * Math.sin(azimuth),
    Math.cos(altitude),
  ]
  const stretch = (place: Vector): number => 2 / (1 + Math.max(-0.999, dot(place, towards)))
  return {
    middle,
    stretch: (place) => stretch(vectorOf(place)),
    flat(place) {
      const vector = vectorOf(place)
      const larger = degrees(stretch(vector))
      return { rightDeg: larger * dot(vector, right), upDeg: larger * dot(vector, up) }
    },
  }
}

/** The place half way between two, which must not be opposite. */
export function halfWay(one: Horizontal, other: Horizontal): Horizontal {
  return placesBetween(one, other, 1)[0] ?? one
}

/** So many places on the straight way from one to another, evenly spread, the ends left out. */
export function placesBetween(one: Horizontal, other: Horizontal, count: number): readonly Horizontal[] {
  const [from, to] = [vectorOf(one), vectorOf(other)]
  return Array.from({ length: count }, (_, k) => {
    const share = (k + 1) / (count + 1)
    const { raDeg, decDeg } = toSphere(plus(scaled(from, 1 - share), to, share))
    return { azimuthDeg: raDeg, altitudeDeg: decDeg }
  })
}

const scaled = (a: Vector, factor: number): Vector => plus([0, 0, 0], a, factor)

/** The hour of a clock, 1 to 12, to which a line from one flat place to another points; 12 is up. */
export function clockHour(from: Flat, to: Flat): number {
  const turnDeg = wrap360(degrees(Math.atan2(to.rightDeg - from.rightDeg, to.upDeg - from.upDeg)))
  return Math.round(turnDeg / 30) % 12 || 12
}

/** Where stars are seen from a place at an instant, lifted by the air. */
export function seenFrom(stars: readonly StarPlace[], at: Date, place: Place): readonly Horizontal[] {
  const { altitudeDeg, azimuthDeg } = skyPass(starVectors(stars, at), [at], place)
  return stars.map((_, index) => ({ altitudeDeg: altitudeDeg[index] ?? -90, azimuthDeg: azimuthDeg[index] ?? 0 }))
}
