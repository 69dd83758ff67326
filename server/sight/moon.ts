import type { Impression, Look } from './impression.ts'
import { UNLIMITED_MAG, viewOf } from './impression.ts'
import type { Limit } from './limit.ts'
import { reliefOf } from './moon-features.ts'
import { moonMagnitude } from './moonlight.ts'
import type { View } from './optics.ts'
import { uniformMargin } from './patch.ts'
import { detailArcsec } from './planet.ts'
import { ramp } from './ramp.ts'
import type { MoonSubject } from './subject.ts'

/** How long the day-night line is and how far from the limb, 0 to 1: nearly nothing when full, most from a thick crescent to past the half (common practice, no source). */
const terminator = (phaseAngleDeg: number): number =>
  ramp(Math.abs(phaseAngleDeg), 5, 60) * (1 - 0.4 * ramp(Math.abs(phaseAngleDeg), 130, 165))

const FULL_RELIEF = 3.5 // so many good features at the line are as many as a visitor looks at (a choice)

/** How much the shadows at the day-night line give, 0 to 1: half for the line, half for what of the list stands at it. */
function shadows({ phaseAngleDeg, features }: MoonSubject): number {
  const line = terminator(phaseAngleDeg)
  return features === undefined ? line : (line + ramp(reliefOf(features), 0, FULL_RELIEF)) / 2
}

/** How well the field frames the whole Moon, 0 to 1. */
const moonFramed = ({ diameterArcmin }: MoonSubject, view: View): number =>
  ramp((view.trueFieldDeg * 60) / diameterArcmin, 0.85, 1.05)

/** The whole Moon in the field, from about 25 times on. */
const wholeView = (moon: MoonSubject, view: View, relief: number): number =>
  moonFramed(moon, view) * (0.65 + 0.35 * ramp(view.powerX, 12, 30)) * (0.84 + 0.16 * relief)

/** A part of the Moon at a high power: craters when the Sun stands low there, a glare when the Moon is full. */
function closeView(view: View, limit: Limit, relief: number): number {
  const kilometreArcsec = 0.537 // at mean distance
  const smallestKm = detailArcsec(view.optics.apertureMm, limit.blurArcsec, limit.altitudeDeg) / kilometreArcsec
  const sharp = 1 - 0.25 * ramp(smallestKm, 3, 9)
  return ramp(view.powerX, 20, 80) * sharp * (0.65 + 0.35 * relief)
}

/** The Moon: always seen when it is up, by day too unless it is the thinnest sickle. */
export function moonLook(moon: MoonSubject, view: View): Look {
  const litArcmin2 = (Math.PI / 4) * moon.diameterArcmin ** 2 * Math.max(1e-4, moon.litFraction)
  const magnitude = moonMagnitude(moon.phaseAngleDeg)
  const relief = shadows(moon)
  const whole = wholeView(moon, view, relief)
  return (limit): Impression => {
    const lightMag = uniformMargin(limit, magnitude, litArcmin2)
    const stands = 0.7 + 0.3 * ramp(lightMag, 2, 6)
    const best = Math.max(whole, closeView(view, limit, relief))
    return { lightMag, otherMag: UNLIMITED_MAG, view: Math.max(viewOf(lightMag, 0, 0, 0), stands * best) }
  }
}

const EARTHLIGHT_CD = 0.3 // a thin Moon's night side, lit by a nearly full Earth; from memory, about 13.5 mag per square arcsecond
const EARTHLIGHT_PHASE_DEG = 125

/** The night side of a thin Moon can be seen, lit by the Earth: the sky behind is not much brighter than it. */
export const hasEarthshine = ({ phaseAngleDeg }: MoonSubject, skyCd: number): boolean =>
  Math.abs(phaseAngleDeg) >= EARTHLIGHT_PHASE_DEG && skyCd < EARTHLIGHT_CD

/** The lit Moon dazzles at this exit pupil: much of it is lit and nothing dims it (common practice, no source). */
export const dazzles = ({ litFraction }: MoonSubject, view: View): boolean =>
  litFraction >= 0.6 && view.exitPupilMm * Math.sqrt(view.optics.transmission) >= 2

/** Magnitudes that a newcomer has lost who has just looked at the Moon through a telescope: 1.2 at full Moon, 0.3 at the half (half a minute at a 2 mm exit pupil, rod bleaching after Rushton & Powell 1972), 0 with no Moon up. */
export const dazzleMag = (moon: { readonly altitudeDeg: number; readonly phaseAngleDeg: number } | null): number =>
  moon === null || moon.altitudeDeg <= 0 ? 0 : 1.2 * 0.25 ** (Math.abs(moon.phaseAngleDeg) / 90)
