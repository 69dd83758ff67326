import { airmassPickering } from '../sky/airmass.ts'
import type { Conditions } from './conditions.ts'
import { transmittance, type View } from './optics.ts'
import { BLACK_CD, contrastFloor, magFromLux, sizeExponent, spreadSr } from './threshold.ts'

const ONE_EYE = Math.SQRT2 // against two; Lythgoe & Phillips 1938, by way of Crumey section 1.6.4
const LAMP_CD = 1e-3 // a guess: what a street lamp in the eye is worth as a background
const CLOUD_MAG = 1.5 // a guess: full thin cloud takes so much
const SQUARE_ARCMIN_PER_SR = ((180 / Math.PI) * 60) ** 2
const BLUR_ARCSEC = 900 // apparent size from which a star is no longer a point, F_r of Schaefer, PASP 102 (1990), 212; Crumey has no such loss

/** What the eye at the eyepiece can just see at one place of the sky. Magnitudes are catalogue V (outside the air). */
export interface Limit {
  /** The faintest star, seen by half of the newcomers. */
  readonly starMag: number
  /** The same for a patch too small to have a size; a star may be worse by its blown-up image. */
  readonly patchMag: number
  /** Area on the sky in square arcminutes at which size begins to matter (A_TR). */
  readonly patchArcmin2: number
  /** Exponent q of the size law. */
  readonly exponent: number
  /** Width of a star's image there in arcseconds. */
  readonly blurArcsec: number
  /** Magnitudes that air and thin cloud take. */
  readonly lostMag: number
  readonly altitudeDeg: number
}

/** Magnitudes that thin cloud takes, 0 or more. */
export const cloudLossMag = (conditions: Conditions): number => CLOUD_MAG * conditions.thinCloud

/** Magnitudes that air and thin cloud take through so many airmasses. */
export const lossMag = (airmass: number, conditions: Conditions): number =>
  conditions.extinctionMag * airmass + cloudLossMag(conditions)

/** Width of a star's image in arcseconds through so many airmasses: grows as airmass^0.6 (Fried, J. Opt. Soc. Am. 56 (1966), 1372). */
const blurThrough = (airmass: number, conditions: Conditions): number => conditions.seeingArcsec * airmass ** 0.6

/** What the eye sees of the sky's light, as a share: the telescope's loss and, at a small exit pupil, the darkening (Crumey eq. 66). */
const backgroundShare = (view: View, pupilMm: number): number =>
  (Math.min(view.exitPupilMm, pupilMm) / pupilMm) ** 2 * transmittance(view.optics)

/** The background in the eyepiece in cd/m^2, never under what counts as black, or as lamplight where a lamp shines on the people. */
const eyepieceCd = (skyCd: number, share: number, streetLight: boolean): number =>
  Math.max(share * skyCd, streetLight ? LAMP_CD : BLACK_CD)

/** How much brighter than to the eye alone a star looks, in magnitudes, less what a newcomer with one eye needs more than a laboratory's observer (Crumey eq. 68). */
export function gainMag(view: View, conditions: Conditions): number {
  const gathered = (view.optics.apertureMm / Math.max(view.exitPupilMm, conditions.pupilMm)) ** 2
  const needed = conditions.noviceFactor * (conditions.eyes === 1 ? ONE_EYE : 1)
  return 2.5 * Math.log10((gathered * transmittance(view.optics)) / needed)
}

/** What the air does to whatever stands at one apparent altitude in degrees: magnitudes it takes, and the width of a star's image in arcseconds. */
export interface Air {
  readonly altitudeDeg: number
  readonly lostMag: number
  readonly blurArcsec: number
}

/** The air at an apparent altitude in degrees; under the horizon that of the horizon. */
export function airAt(altitudeDeg: number, conditions: Conditions): Air {
  const airmass = airmassPickering(altitudeDeg)
  return { altitudeDeg, lostMag: lossMag(airmass, conditions), blurArcsec: blurThrough(airmass, conditions) }
}

export type LimitAt = (skyCd: number, altitudeDeg: number) => Limit

/** The limit of this view for any sky in cd/m^2 and any apparent altitude in degrees. */
export function limitOf(view: View, conditions: Conditions): LimitAt {
  const through = limitThrough(view, conditions)
  return (skyCd, altitudeDeg) => through(skyCd, airAt(altitudeDeg, conditions))
}

/**
 * The same where the air is reckoned already. Crumey's law rests on Blackwell's laboratory; Schaefer's of 1990, fitted to
 * observers of experience, goes 0.3 to 0.6 magnitudes deeper than this one with a factor of 2.
 */
export function limitThrough(view: View, conditions: Conditions): (skyCd: number, air: Air) => Limit {
  const share = backgroundShare(view, conditions.pupilMm)
  const gain = gainMag(view, conditions)
  const areaScale = SQUARE_ARCMIN_PER_SR / (view.powerX * view.powerX)
  return (skyCd, { altitudeDeg, lostMag, blurArcsec }) => {
    const seen = eyepieceCd(skyCd, share, conditions.streetLight)
    const spread = spreadSr(seen)
    const patchMag = magFromLux(seen * spread) + gain - lostMag
    const apparent = 2 * blurArcsec * view.powerX
    return {
      starMag: patchMag - (apparent > BLUR_ARCSEC ? 1.25 * Math.log10(apparent / BLUR_ARCSEC) : 0),
      patchMag,
      patchArcmin2: (areaScale * spread) / contrastFloor(seen),
      exponent: sizeExponent(seen),
      blurArcsec,
      lostMag,
      altitudeDeg,
    }
  }
}
