import type { Impression, Look } from './impression.ts'
import { UNLIMITED_MAG, viewOf } from './impression.ts'
import { ramp } from './ramp.ts'
import type { StarSubject } from './subject.ts'

const MAG_PER_COLOUR = 0.27 // Crumey eq. 18: rods see a red star of the same V so much worse per unit of B - V
const USUAL_COLOUR = 0.5

/** Magnitudes that a star's colour costs the dark-adapted eye, against a star of B - V = 0.5; 0 where the colour is unknown. */
export const colourLossMag = (bv: number | null): number => (bv === null ? 0 : MAG_PER_COLOUR * (bv - USUAL_COLOUR))

/** How plain its colour is to a newcomer, 0 to 1 (a choice: carbon stars are what people call red). */
const colourShare = ({ bv, isRed }: StarSubject): number => (isRed ? 1 : bv === null ? 0.3 : ramp(bv, 0.8, 2))

/** A single star: a point, more by its colour and its blaze. Colour needs about two magnitudes to spare (common practice, no source). */
export function starLook(star: StarSubject): Look {
  const magnitude = star.magnitude + colourLossMag(star.bv)
  const colour = 0.4 + 0.6 * colourShare(star)
  return (limit): Impression => {
    const lightMag = limit.starMag - magnitude
    const blaze = ramp(lightMag, 8, 12)
    return {
      lightMag,
      otherMag: UNLIMITED_MAG,
      view: viewOf(lightMag, colour * ramp(lightMag, 1.5, 5), 0.6 * blaze, 0),
    }
  }
}
