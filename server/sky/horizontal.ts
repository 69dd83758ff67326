import { degrees, radians, wrap360 } from './angles.ts'
import { fromSphere, type Vector } from './vectors.ts'

/** A direction over a place: altitude -90 to 90, azimuth from north (0) through east (90), both in degrees. */
export interface Horizontal {
  readonly altitudeDeg: number
  readonly azimuthDeg: number
}

/**
 * Altitude and azimuth of a direction given by its hour angle (west positive) and declination, without refraction
 * (Meeus, Astronomical Algorithms, 2nd ed., eq. 13.5 and 13.6, turned to count azimuth from north). At a pole of the
 * Earth the azimuth is still defined by the hour angle; straight overhead it is meaningless and finite.
 */
export function toHorizontal(hourAngleDeg: number, decDeg: number, latitudeDeg: number): Horizontal {
  const [turn, dec, lat] = [radians(hourAngleDeg), radians(decDeg), radians(latitudeDeg)]
  const north = Math.sin(dec) * Math.cos(lat) - Math.cos(dec) * Math.cos(turn) * Math.sin(lat)
  const west = Math.cos(dec) * Math.sin(turn)
  const up = Math.sin(dec) * Math.sin(lat) + Math.cos(dec) * Math.cos(turn) * Math.cos(lat)
  return {
    altitudeDeg: degrees(Math.atan2(up, Math.hypot(north, west))),
    azimuthDeg: wrap360(degrees(Math.atan2(-west, north))),
  }
}

/** A direction over a place as a unit vector: north, east, up. */
export const vectorOf = ({ altitudeDeg, azimuthDeg }: Horizontal): Vector => fromSphere(azimuthDeg, altitudeDeg)
