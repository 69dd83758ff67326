import { radians } from '../sky/angles.ts'
import type { Telescope, Tube } from './telescope.ts'

/** Lowest and highest place of the eyepiece above ground in cm, by the legs of the tripod. */
export interface HeightRange {
  readonly lowCm: number
  readonly highCm: number
}

const BEHIND_AXIS = 0.5
const BEFORE_AXIS = 0.65
const DIAGONAL_CM = 8
/** Eyes of children of six to nine standing, 105 to 125 cm (from memory). */
const CHILD_CM = { least: 70, most: 120 }
/** Seated eye level is 109 to 130 cm (ADA Standards, figure A3), and a visitor can bend. */
const SEATED_CM = { least: 75, most: 130 }
/** Standing eye level about 161 cm; adults bend to 100 and have no step. */
const ADULT_CM = { least: 90, most: 175 }

/**
 * Height of the eyepiece above ground when the tube points at an altitude in degrees: a reflecting tube has it near its
 * upper end (0.65 of the focal length before the axis), others at the lower end (0.5 behind it; folded catadioptric tubes
 * are a quarter as long as their focal length), a diagonal adds 8 cm. Proportions are common practice, no source.
 */
export function eyepieceHeight(telescope: Telescope, tube: Tube, altitudeDeg: number): HeightRange {
  const up = Math.sin(radians(altitudeDeg)) * tube.focalLengthMm * 0.1
  const length = tube.design === 'catadioptric' ? 0.25 : 1
  const offsetCm = tube.design === 'reflector' ? BEFORE_AXIS * up : -BEHIND_AXIS * length * up
  const diagonalCm = tube.hasDiagonal ? DIAGONAL_CM : 0
  return {
    lowCm: telescope.axisLowCm + offsetCm + diagonalCm,
    highCm: telescope.axisHighCm + offsetCm + diagonalCm,
  }
}

type Reach = { readonly least: number; readonly most: number }
const isWithin = ({ lowCm, highCm }: HeightRange, { least, most }: Reach): boolean => lowCm <= most && highCm >= least

/** True when the legs can bring the eyepiece to a child's eye. */
export const isForChild = (height: HeightRange): boolean => isWithin(height, CHILD_CM)

/** True when a seated visitor can reach it. */
export const isForChair = (height: HeightRange, telescope: Pick<Telescope, 'chairReach'>): boolean =>
  telescope.chairReach !== 'no' && isWithin(height, SEATED_CM)

/** True when a standing adult needs a step. */
export const needsStep = ({ highCm }: HeightRange): boolean => highCm > ADULT_CM.most

/** True when a standing adult needs no step and need not stoop. */
export const isForAdult = (height: HeightRange): boolean => isWithin(height, ADULT_CM)
