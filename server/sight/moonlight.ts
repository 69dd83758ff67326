import { radians } from '../sky/angles.ts'
import { cdFromNanolambert } from './luminance.ts'
import { ramp } from './ramp.ts'
import type { MoonGeometry } from './sky-brightness.ts'

const MEAN_DISTANCE_KM = 384_400
const CLOSEST_DEG = 0.5 // the law is not valid nearer to the Moon's centre
const FULL_STRENGTH_DEG = 3 // so that moonrise does not switch the sky on; the law itself knows no setting Moon
const SURGE_DEG = 7

/** The airmass of scattered light, 1 to 5, from the altitude in degrees (Krisciunas & Schaefer, PASP 103 (1991), 1033, eq. 3). */
export const scatteringAirmass = (altitudeDeg: number): number => {
  const cosAltitude = Math.cos(radians(Math.max(0, altitudeDeg)))
  return 1 / Math.sqrt(1 - 0.96 * cosAltitude * cosAltitude)
}

/** V magnitude of the Moon at mean distance outside the air, by phase angle in degrees, 0 full to 180 new (the same, eq. 9). */
export const moonMagnitude = (phaseAngleDeg: number): number =>
  -12.73 + 0.026 * Math.abs(phaseAngleDeg) + 4e-9 * phaseAngleDeg ** 4

/**
 * How much light the air turns by this angle in degrees (the same, eqs. 17 to 19). The paper steps down by 22 % inside
 * 10 degrees; between 8.45 and 10 the larger branch is taken, so that nothing jumps as the Moon drifts by.
 */
export function scatteringFunction(separationDeg: number): number {
  const rho = Math.max(CLOSEST_DEG, separationDeg)
  const cosRho = Math.cos(radians(rho))
  const haze = 10 ** (6.15 - rho / 40)
  return 10 ** 5.36 * (1.06 + cosRho * cosRho) + (rho < 10 ? Math.max(6.2e7 / (rho * rho), haze) : haze)
}

/**
 * Moonlight in the sky in nanolamberts (the same, eq. 15), without opposition surge, mean distance; extinction in
 * magnitudes per airmass. The paper states 8 to 23 %; wide-band meters in the field found up to 0.64 magnitudes more, so
 * 0.3 either way is fair. Jones et al. 2013 and Winkler 2022 need the air's particles, which nobody knows at a school.
 */
export function moonlightNanolambert(
  moon: Pick<MoonGeometry, 'altitudeDeg' | 'phaseAngleDeg' | 'separationDeg'>,
  altitudeDeg: number,
  extinctionMag: number,
): number {
  const light = 10 ** (-0.4 * (moonMagnitude(moon.phaseAngleDeg) + 16.57)) // eq. 8
  const reaching = 10 ** (-0.4 * extinctionMag * scatteringAirmass(moon.altitudeDeg))
  const scattered = 1 - 10 ** (-0.4 * extinctionMag * scatteringAirmass(altitudeDeg))
  return scatteringFunction(moon.separationDeg) * light * reaching * scattered
}

/** 1, rising to 1.35 at full Moon: the opposition surge inside 7 degrees of phase (the same, text after eq. 9). */
const surge = (phaseAngleDeg: number): number => 1 + 0.35 * ramp(SURGE_DEG - Math.abs(phaseAngleDeg), 0, SURGE_DEG)

/** Moonlight in the sky at the target in cd/m^2, with surge and distance; 0 with the Moon below the horizon. */
export function moonlightCd(moon: MoonGeometry, altitudeDeg: number, extinctionMag: number): number {
  if (moon.altitudeDeg <= 0) return 0
  const strength = ramp(moon.altitudeDeg, 0, FULL_STRENGTH_DEG) * surge(moon.phaseAngleDeg)
  const near = (MEAN_DISTANCE_KM / moon.distanceKm) ** 2
  return strength * near * cdFromNanolambert(moonlightNanolambert(moon, altitudeDeg, extinctionMag))
}
