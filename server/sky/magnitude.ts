import { clamp, radians } from './angles.ts'
import type { BodyKey } from './body.ts'

/** What the brightness of a body depends on. */
export interface Lighting {
  /** Distance from the Sun and from the observer in au. */
  readonly sunAu: number
  readonly au: number
  /** Angle Sun - body - observer, 0 to 180. */
  readonly phaseAngleDeg: number
  /** Latitude on the body above which the Sun and the observer stand, north positive. */
  readonly tiltSunDeg: number
  readonly tiltDeg: number
  /** Calendar year with its fraction. */
  readonly year: number
}

const SUN_MAG_AT_1_AU = -26.74
const FULL_MOON_MAG = -12.73
const MOON_MEAN_AU = 384_400 / 149_597_870.7
/** Mallama & Hilton's ring law is fitted up to this phase angle, which the Earth never leaves. */
const RING_LAW_PHASE_DEG = 6.5

const polynomial = (x: number, coefficients: readonly number[]): number =>
  coefficients.reduceRight((sum, coefficient) => sum * x + coefficient, 0)

const MERCURY = [-0.613, 6.328e-2, -1.6336e-3, 3.3644e-5, -3.4265e-7, 1.6893e-9, -3.0334e-12]
const VENUS_LIT = [-4.384, -1.044e-3, 3.687e-4, -2.814e-6, 8.938e-9]
const VENUS_THIN = [236.05828, -2.81914, 8.39034e-3]
const MARS_NEAR_FULL = [-1.601, 0.02267, -1.302e-4]
const MARS_GIBBOUS = [-0.367, -0.02573, 3.445e-4]
const JUPITER = [-9.395, -3.7e-4, 6.16e-4]
const SATURN_GLOBE = [-8.95, -3.7e-4, 6.16e-4]
const MOON_PHASE = [0, 0.026, 0, 0, 4e-9]

/** Magnitude of Saturn with its ring; a ring lit from the side that is turned away adds nothing. */
function saturn({ phaseAngleDeg, tiltDeg, tiltSunDeg }: Lighting): number {
  if (phaseAngleDeg > RING_LAW_PHASE_DEG) return polynomial(phaseAngleDeg, SATURN_GLOBE)
  const open = Math.sin(radians(Math.sqrt(Math.max(0, tiltDeg * tiltSunDeg))))
  return -8.914 - 1.825 * open + 0.026 * phaseAngleDeg - 0.378 * open * Math.exp(-2.25 * phaseAngleDeg)
}

function uranus({ phaseAngleDeg, tiltDeg, tiltSunDeg }: Lighting): number {
  const pole = -7.11 - 0.00084 * ((Math.abs(tiltDeg) + Math.abs(tiltSunDeg)) / 2)
  return phaseAngleDeg > 3.1 ? polynomial(phaseAngleDeg, [pole, 6.587e-3, 1.045e-4]) : pole
}

function neptune({ phaseAngleDeg, year }: Lighting): number {
  const full = clamp(-6.89 - 0.0054 * (year - 1980), -7, -6.89)
  return phaseAngleDeg > 1.9 ? polynomial(phaseAngleDeg, [full, 7.944e-3, 9.617e-5]) : full
}

const AT_UNIT_DISTANCE: Readonly<Record<Exclude<BodyKey, 'sun' | 'moon'>, (lighting: Lighting) => number>> = {
  mercury: ({ phaseAngleDeg }) => polynomial(phaseAngleDeg, MERCURY),
  venus: ({ phaseAngleDeg }) => polynomial(phaseAngleDeg, phaseAngleDeg <= 163.7 ? VENUS_LIT : VENUS_THIN),
  mars: ({ phaseAngleDeg }) => polynomial(phaseAngleDeg, phaseAngleDeg <= 50 ? MARS_NEAR_FULL : MARS_GIBBOUS),
  jupiter: ({ phaseAngleDeg }) => polynomial(phaseAngleDeg, JUPITER),
  saturn,
  uranus,
  neptune,
}

/**
 * Visual magnitude of a body outside the air. Planets: Mallama & Hilton, Astronomy and Computing 25 (2018), 10, without the
 * turning and the seasons of Mars (0.06). Moon: Krisciunas & Schaefer, PASP 103 (1991), 1033, eq. 9, at its distance.
 */
export function magnitudeOf(key: BodyKey, lighting: Lighting): number {
  if (key === 'sun') return SUN_MAG_AT_1_AU + 5 * Math.log10(lighting.au)
  if (key === 'moon')
    return FULL_MOON_MAG + polynomial(lighting.phaseAngleDeg, MOON_PHASE) + 5 * Math.log10(lighting.au / MOON_MEAN_AU)
  return AT_UNIT_DISTANCE[key](lighting) + 5 * Math.log10(lighting.au * lighting.sunAu)
}
