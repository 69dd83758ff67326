import { airmassPickering } from '../sky/airmass.ts'
import { radians } from '../sky/angles.ts'
import { cdFromMag } from './luminance.ts'

/** V of the twilight zenith by the Sun's depression in degrees, 5 to 15 (Patat, Ugolnikov & Postylyakov, A&A 455 (2006), 385, table 1); night sky included. */
export const patatZenithMag = (depressionDeg: number): number => {
  const x = depressionDeg - 5
  return 11.84 + 1.518 * x - 0.057 * x * x
}

const PARANAL_NIGHT_CD = cdFromMag(21.61) // Patat, A&A 400 (2003), 1183
const patatCd = (depressionDeg: number): number => cdFromMag(patatZenithMag(depressionDeg)) - PARANAL_NIGHT_CD
const LAST_FIT_DEG = 12 // beyond 13 the night sky cannot be taken off the fit any more
const FADE_MAG_PER_DEG = 1.15 // Patat's own slope in V
const NOTHING_LEFT_DEG = 24

/** Sun altitude in degrees and zenith luminance in cd/m^2. From 5 down to -3: Koomen et al., JOSA 42 (1952), 353, Maryland; a mountain has half. Above 5: a clear blue sky, from memory. */
const KNOTS: readonly (readonly [number, number])[] = [
  [90, 3000],
  [30, 2200],
  [15, 1400],
  [5, 463],
  [3, 377],
  [0, 161.5],
  [-3, 21.5],
  [-5, patatCd(5)],
]

function betweenKnots(sunAltitudeDeg: number): number {
  for (let i = 1; i < KNOTS.length; i++) {
    const [high, highCd] = KNOTS[i - 1] ?? [0, 1]
    const [low, lowCd] = KNOTS[i] ?? [0, 1]
    if (sunAltitudeDeg >= low) return lowCd * (highCd / lowCd) ** ((sunAltitudeDeg - low) / (high - low))
  }
  return patatCd(5)
}

/** Twilight or daylight at the zenith in cd/m^2 by the Sun's altitude in degrees, night sky not included; good to half a magnitude. */
export function zenithTwilightCd(sunAltitudeDeg: number): number {
  const depressionDeg = -sunAltitudeDeg
  if (depressionDeg > NOTHING_LEFT_DEG) return 0
  if (depressionDeg > LAST_FIT_DEG)
    return patatCd(LAST_FIT_DEG) * 10 ** (-0.4 * FADE_MAG_PER_DEG * (depressionDeg - LAST_FIT_DEG))
  return depressionDeg >= 5 ? patatCd(depressionDeg) : betweenKnots(Math.min(90, sunAltitudeDeg))
}

const SUN_LESS_ZERO_MAG = -26.74 + 11.05 // V of the Sun less the zero point, Schaefer, Archaeoastronomy XV (2000), p. 129
const CLOSEST_DEG = 2
const DAYLIGHT_FROM_DEG = -3 // under it the twilight law is always the smaller one

/** Schaefer's twilight brightness, in a unit of his own (the same, p. 129), of which he makes 1.02e-15 or, in 1998, 1.11e-15 a nanolambert: only ratios are used. Sun altitude, target altitude, their separation in degrees; k in magnitudes. */
export function schaeferTwilight(
  sunAltitudeDeg: number,
  altitudeDeg: number,
  separationDeg: number,
  k: number,
): number {
  const zenithDistanceDeg = 90 - altitudeDeg
  const exponent = SUN_LESS_ZERO_MAG + 32.5 - sunAltitudeDeg - zenithDistanceDeg / (360 * k)
  return 10 ** (-0.4 * exponent) * (100 / separationDeg) * (1 - 10 ** (-0.4 * k * airmassPickering(altitudeDeg)))
}

function schaeferDaylight(sunAltitudeDeg: number, altitudeDeg: number, separationDeg: number, k: number): number {
  const sunShare = 10 ** (-0.4 * k * airmassPickering(sunAltitudeDeg))
  const cosRho = Math.cos(radians(separationDeg))
  const turned =
    6.2e7 / (separationDeg * separationDeg) + 10 ** (6.15 - separationDeg / 40) + 10 ** 5.36 * (1.06 + cosRho * cosRho)
  const column = 1 - 10 ** (-0.4 * k * airmassPickering(altitudeDeg))
  return 10 ** (-0.4 * (SUN_LESS_ZERO_MAG + 43.27)) * column * (turned * sunShare + 440_000 * (1 - sunShare))
}

function schaefer(sunAltitudeDeg: number, altitudeDeg: number, separationDeg: number, k: number): number {
  const twilight = schaeferTwilight(sunAltitudeDeg, altitudeDeg, separationDeg, k)
  if (sunAltitudeDeg < DAYLIGHT_FROM_DEG) return twilight
  return Math.min(twilight, schaeferDaylight(sunAltitudeDeg, altitudeDeg, separationDeg, k))
}

/** Twilight or daylight at the target in cd/m^2: the zenith's, times how much brighter Schaefer's law makes this place than the zenith. */
export function twilightCd(sunAltitudeDeg: number, altitudeDeg: number, separationDeg: number, k: number): number {
  const zenithCd = zenithTwilightCd(sunAltitudeDeg)
  if (zenithCd === 0) return 0
  const extinction = Math.max(0.05, k)
  const here = schaefer(sunAltitudeDeg, Math.max(0, altitudeDeg), Math.max(CLOSEST_DEG, separationDeg), extinction)
  // With the Sun overhead the zenith would be the Sun's own glare: the measured zenith values are of blue sky.
  return (zenithCd * here) / schaefer(sunAltitudeDeg, 90, Math.max(45, 90 - sunAltitudeDeg), extinction)
}
