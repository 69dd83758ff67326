import type { Impression, Look } from './impression.ts'
import { viewOf } from './impression.ts'
import type { Limit } from './limit.ts'
import type { View } from './optics.ts'
import { ramp } from './ramp.ts'
import type { DoubleSubject } from './subject.ts'

const RAYLEIGH_ARCSEC_MM = 138 // 1.22 x 550 nm
const COMFORT = 2 // twice an observer's limit for a newcomer (a choice)
const SEEING_SHARE = 0.8 // the eye waits for the steadier moments (a choice)
const TWO_POINTS_ARCSEC = 240 // apparent separation at which a newcomer says "two"; from memory
const COMPANION_SPARE_MAG = 0.5
/** At the comfortable separation four newcomers in five see two stars; each factor of 1.58 is worth a magnitude (a choice). */
const COMFORTABLE_MAG = 0.6

/** What two stars of one colour gain by their blaze alone (a choice). */
const BLAZE = 0.25

/** Performance indices of Lord 1994 (nomogram for unequal binaries) at the middle of his steps, straight lines between. */
const APERTURE_INDEX = [[60, 4], [112, 3], [225, 2], [375, 1], [525, 0.5]] as const // biome-ignore format: a table
const OBSTRUCTION_INDEX = [[0, 4], [0.1, 3], [0.2, 2], [0.33, 1.5], [0.4, 1], [0.5, 0.5]] as const // biome-ignore format: a table
/** His five classes of seeing, here by the width of a star's image in arcseconds (the match is a choice). */
const SEEING_INDEX = [[1, 4], [1.7, 3], [2.7, 2], [4, 1], [6, 0.5]] as const // biome-ignore format: a table

/** The table's value at x, straight lines between its rows, its end values outside. */
function along(table: readonly (readonly [number, number])[], x: number): number {
  let [fromX, fromY] = table[0] ?? [0, 0]
  for (const [toX, toY] of table) {
    if (x <= toX) return toX === fromX ? toY : fromY + ((toY - fromY) * (x - fromX)) / (toX - fromX)
    fromX = toX
    fromY = toY
  }
  return fromY
}

/** Lord's limit in arcseconds: 1.033 x 10^((dm - 0.1)/n) x Rayleigh's limit, n from the three indices; differences under 0.1 count as 0.1. */
export function lordArcsec(apertureMm: number, differenceMag: number, indexSum: number): number {
  const unequal = Math.max(0.1, Math.abs(differenceMag)) - 0.1
  return 1.033 * 10 ** (unequal / indexSum) * (RAYLEIGH_ARCSEC_MM / apertureMm)
}

/** The separation at which this pair is comfortably two in this tube, made ready for any width of a star's image in arcseconds. */
function comfort(pair: DoubleSubject, { optics }: View): (blurArcsec: number) => number {
  const tube = along(APERTURE_INDEX, optics.apertureMm) + along(OBSTRUCTION_INDEX, optics.obstruction)
  const differenceMag = pair.magnitudes[1] - pair.magnitudes[0]
  return (blurArcsec) => {
    const lord = lordArcsec(optics.apertureMm, differenceMag, tube + along(SEEING_INDEX, blurArcsec))
    return Math.max(COMFORT * lord, SEEING_SHARE * blurArcsec)
  }
}

/** The separation in arcseconds at which this pair is comfortably two in this tube, for a star image so many arcseconds wide. */
export const comfortableArcsec = (pair: DoubleSubject, view: View, blurArcsec: number): number =>
  comfort(pair, view)(blurArcsec)

/** How much wider than needed, by tube, air and power, as a margin in magnitudes. */
export const splitMargin = (pair: DoubleSubject, view: View, limit: Limit): number => split(pair, view)(limit)

function split(pair: DoubleSubject, view: View): (limit: Limit) => number {
  const needed = comfort(pair, view)
  const byPower = (pair.separationArcsec * view.powerX) / TWO_POINTS_ARCSEC
  return ({ blurArcsec }) =>
    COMFORTABLE_MAG + 5 * Math.log10(Math.min(pair.separationArcsec / needed(blurArcsec), byPower))
}

/** The power from which the pair is wide enough for a newcomer's eye. */
export const splittingPower = (pair: DoubleSubject): number => TWO_POINTS_ARCSEC / pair.separationArcsec

/** How well the field holds both stars at once, as a margin in magnitudes. */
export const fieldMargin = (pair: DoubleSubject, view: View): number =>
  0.6 + 5 * Math.log10((view.trueFieldDeg * 3600 * 0.7) / pair.separationArcsec)

/** A double star: seen when it is seen as two, both stars at once in the field. */
export function doubleLook(pair: DoubleSubject, view: View): Look {
  const companionMag = Math.max(...pair.magnitudes) + COMPANION_SPARE_MAG
  const fits = fieldMargin(pair, view)
  const apparentArcmin = (pair.separationArcsec * view.powerX) / 60
  const close = 1 - 0.6 * ramp(apparentArcmin, 90, 240)
  const brightestMag = Math.min(...pair.magnitudes)
  const plain = pair.hasColourContrast ? 1 : 0.6
  const partedBy = split(pair, view)
  return (limit): Impression => {
    const parted = partedBy(limit)
    const lightMag = limit.starMag - companionMag
    const blaze = BLAZE * ramp(limit.starMag - brightestMag, 8, 12)
    const detail = Math.min(1, plain + blaze) * close * ramp(lightMag, 0.5, 2.5)
    const gasp = pair.hasColourContrast ? 0.7 * ramp(lightMag, 2, 5) : 0
    return { lightMag, otherMag: Math.min(parted, fits), view: viewOf(lightMag, ramp(parted, -0.5, 1.2), detail, gasp) }
  }
}
