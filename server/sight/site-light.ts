import { radians, wrap360 } from '../sky/angles.ts'
import type { Conditions, Glow } from './conditions.ts'
import { cdFromMag } from './luminance.ts'
import { ramp } from './ramp.ts'

/*
 * A choice: near the middle of what two tables in common use give for each of the nine classes of Bortle, Sky & Telescope
 * 101 (February 2001), 126. They do not agree, by up to 0.8 magnitudes in classes 4 to 6 (class 6: 18.9 to 19.5, or 18.0 to
 * 19.1), and Crumey, MNRAS 442 (2014), section 4, doubts the scale: a measured value is better.
 */
const CLASS_MAGS = [21.9, 21.7, 21.5, 21.1, 20, 19.2, 18.6, 18, 17.3] as const

/** The night sky at the zenith in V magnitudes per square arcsecond that a class stands for, 1 (darkest) to 9 (inner city); throws on another number. */
export function skyMagOfClass(skyClass: number): number {
  const mag = CLASS_MAGS[skyClass - 1]
  if (mag === undefined) throw new RangeError('A class of the sky is a whole number from 1 to 9.')
  return mag
}

const SOFT_EDGE_DEG = 15 // a town's dome has no sharp side; common practice, no source
const CLOUD_BRIGHTENS = 2 // a guess: thin cloud throws a town's light back

/** How far this azimuth stands inside the sector: 1 inside, fading to 0 over 15 degrees outside. */
function inside(glow: Glow, azimuthDeg: number): number {
  const widthDeg = wrap360(glow.toDeg - glow.fromDeg)
  const alongDeg = wrap360(azimuthDeg - glow.fromDeg)
  if (alongDeg <= widthDeg) return 1
  return 1 - ramp(Math.min(alongDeg - widthDeg, 360 - alongDeg), 0, SOFT_EDGE_DEG)
}

/** How many times brighter the glow of towns makes this place, 1 or more; full at the horizon, a quarter of it at 30 degrees, none at the zenith (a choice, no source). */
export function glowFactor(glow: readonly Glow[], altitudeDeg: number, azimuthDeg: number): number {
  if (glow.length === 0) return 1
  const fade = (1 - Math.sin(radians(Math.max(0, altitudeDeg)))) ** 2
  return glow.reduce((sum, one) => sum + (10 ** (0.4 * one.brighterMag) - 1) * fade * inside(one, azimuthDeg), 1)
}

/** The site's own sky at the target in cd/m^2: zenith brightness x (1 + Z^2/2) (Schaefer, Sky & Telescope 78 (1989), 522), glow and thin cloud. */
export function siteCd(altitudeDeg: number, azimuthDeg: number, conditions: Conditions): number {
  const zenithDistance = radians(90 - Math.max(0, altitudeDeg))
  const gradient = 1 + (zenithDistance * zenithDistance) / 2
  const cloud = 1 + CLOUD_BRIGHTENS * conditions.thinCloud
  return cdFromMag(conditions.zenithMag) * gradient * cloud * glowFactor(conditions.glow, altitudeDeg, azimuthDeg)
}
