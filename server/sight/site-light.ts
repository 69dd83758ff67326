import { radians, wrap360 } from '../sky/angles.ts'
import type { Conditions, Glow } from './conditions.ts'
import { cdFromMag } from './luminance.ts'
import { ramp } from './ramp.ts'

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
