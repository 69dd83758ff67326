/** A tube: aperture and focal length in mm, obstruction as a ratio of diameters (0 to 0.6), transmission of its glass and mirrors as a share (0 to 1). */
export interface Optics {
  readonly apertureMm: number
  readonly focalLengthMm: number
  readonly obstruction: number
  readonly transmission: number
}

/** An eyepiece: focal length and field stop in mm, apparent field in degrees; the field stop is null where the maker gives none. */
export interface Ocular {
  readonly focalLengthMm: number
  readonly apparentFieldDeg: number
  readonly fieldStopMm: number | null
}

/** A tube with an eyepiece in it: magnification, exit pupil in mm, true field in degrees. */
export interface View {
  readonly powerX: number
  readonly exitPupilMm: number
  readonly trueFieldDeg: number
  readonly optics: Optics
}

/** The eyepiece behind a Barlow (factor above 1) or a reducer (below 1): focal length and field stop divided by the factor, which is above 0; the same apparent field. */
export const withFactor = (ocular: Ocular, factor: number): Ocular => ({
  focalLengthMm: ocular.focalLengthMm / factor,
  apparentFieldDeg: ocular.apparentFieldDeg,
  fieldStopMm: ocular.fieldStopMm === null ? null : ocular.fieldStopMm / factor,
})

const DEG_PER_RAD = 180 / Math.PI

/** The view of this eyepiece in this tube; the true field comes from the field stop where it is known, else from the apparent field divided by the power. */
export function viewThrough(optics: Optics, ocular: Ocular): View {
  const powerX = optics.focalLengthMm / ocular.focalLengthMm
  const trueFieldDeg =
    ocular.fieldStopMm === null
      ? ocular.apparentFieldDeg / powerX
      : 2 * Math.atan(ocular.fieldStopMm / (2 * optics.focalLengthMm)) * DEG_PER_RAD
  return { powerX, exitPupilMm: optics.apertureMm / powerX, trueFieldDeg, optics }
}

/** The share of the light on the front ring that reaches the eye, 0 to 1: transmission x (1 - obstruction^2) (Crumey 2014, section 3). */
export const transmittance = (optics: Optics): number => optics.transmission * (1 - optics.obstruction ** 2)
