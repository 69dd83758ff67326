import type { SaidTelescope } from './kit-said.ts'
import type { Design } from './kit-words.ts'
import type { Telescope, TelescopeDraft } from './telescope.ts'

/** Share of light that reaches the eye and shadow of the second mirror for a tube that does not say; from memory. */
export const USUAL_GLASS: Readonly<Record<Design, { transmission: number; obstruction: number }>> = {
  refractor: { transmission: 0.93, obstruction: 0 },
  reflector: { transmission: 0.82, obstruction: 0.25 },
  catadioptric: { transmission: 0.8, obstruction: 0.34 },
}

/** From here on a telescope that is called nothing else is a reflector. */
const REFLECTOR_FROM_MM = 115
/** From here on a reflector that is called nothing else stands on the ground and is pushed. */
const PUSHED_FROM_MM = 220
const LONG_RATIO = 9
const LONGEST_FOCAL_MM = 10_000
const SMALL_MM = 160
const USUAL_FIELD_DEG = 50
/** Height of the altitude axis of a telescope that stands on the ground, in cm. */
const ON_GROUND_CM = 70
const ON_TRIPOD_CM = { axisLowCm: 90, axisHighCm: 130 }

/**
 * The telescope that most often goes by what was said: what was not said of it is assumed, all of it by common practice,
 * with no source.
 */
export function usualTelescope(said: SaidTelescope, name: string, note: string): TelescopeDraft {
  const { apertureMm } = said
  const design = said.design ?? (apertureMm < REFLECTOR_FROM_MM ? 'refractor' : 'reflector')
  const isPushed = said.mount === null && design === 'reflector' && apertureMm >= PUSHED_FROM_MM
  const mount = said.mount ?? (isPushed ? 'altaz-hand' : 'altaz-driven')
  const isOnGround = design === 'reflector' && mount === 'altaz-hand'
  const focalLengthMm = said.focalLengthMm ?? usualFocalMm(design, apertureMm, isOnGround)
  const axis = isOnGround ? { axisLowCm: ON_GROUND_CM, axisHighCm: ON_GROUND_CM } : ON_TRIPOD_CM
  const tube = { name: `${apertureMm} mm`, design, apertureMm, focalLengthMm, ...USUAL_GLASS[design] }
  return {
    name,
    mount,
    tubes: [{ ...tube, hasDiagonal: design !== 'reflector' }],
    eyepieces: usualEyepiecesMm(focalLengthMm / apertureMm).map((mm) => ({
      name: `${mm} mm`,
      focalLengthMm: mm,
      apparentFieldDeg: USUAL_FIELD_DEG,
      fieldStopMm: null,
    })),
    ...axis,
    chairReach: 'no',
    floorDeg: 10,
    ceilingDeg: 80,
    note,
  }
}

function usualFocalMm(design: Design, apertureMm: number, isOnGround: boolean): number {
  const ratio = { refractor: 7, reflector: reflectorRatio(apertureMm, isOnGround), catadioptric: 10 }[design]
  return Math.min(LONGEST_FOCAL_MM, Math.round((apertureMm * ratio) / 10) * 10)
}

function reflectorRatio(apertureMm: number, isOnGround: boolean): number {
  if (apertureMm <= SMALL_MM) return isOnGround ? 8 : 5
  return apertureMm < PUSHED_FROM_MM ? 6 : 5
}

/** A wide one and a close one; a long tube is given longer ones, so that its lowest power stays low. */
const usualEyepiecesMm = (ratio: number): readonly number[] => (ratio >= LONG_RATIO ? [32, 15] : [25, 10])

/** Two widths within so much of each other are written alike: 200 mm is also called 8 inches. */
const SAME_SHARE = 0.02

/** True when a telescope of the kit may be the one that was said. */
export function isSaid(telescope: Telescope, said: SaidTelescope): boolean {
  const [tube, second] = telescope.tubes
  if (!tube || second) return false
  const isWide = Math.abs(tube.apertureMm / said.apertureMm - 1) <= SAME_SHARE
  const isLong = said.focalLengthMm === null || Math.abs(tube.focalLengthMm / said.focalLengthMm - 1) <= SAME_SHARE
  const isKind = (said.design ?? tube.design) === tube.design && (said.mount ?? telescope.mount) === telescope.mount
  return isWide && isLong && isKind
}
