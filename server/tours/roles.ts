import { DEFAULT_CONDITIONS } from '../sight/conditions.ts'
import { eyepieceHeight, type HeightRange, isForChair, isForChild, needsStep } from './eyepiece-height.ts'
import { type ShownTube, showsOf } from './shows.ts'
import { PLANET_POWER, PLEIADES_FIELD_DEG } from './shows-remarks.ts'
import type { Telescope } from './telescope.ts'
import type { Remark } from './tour.ts'

/** Whom and what a telescope suits, or what it asks for; `code` is `kit.role-…` with the numbers of its reason. */
export type Role = Remark & { readonly isCaution: boolean }

// Common practice, no source: where things are well placed, and from which width a tube is worth its place for faint things.
const WELL_PLACED_DEG = { least: 30, most: 75 } as const
const FAINT_APERTURE_MM = 150

/** What a telescope suits and what it asks for, each with its reason. It does not depend on the sky of the night. */
export function rolesOf(telescope: Telescope): readonly Role[] {
  const { tubes } = showsOf(telescope, DEFAULT_CONDITIONS)
  return [...heightRoles(telescope), ...lightRoles(tubes), ...handRoles(telescope, tubes)]
}

/** Lowest and highest place of the eyepiece in cm, tubes pointed from 30 to 75 degrees as far as the mount goes there, legs in and out. */
export function eyepieceRange(telescope: Telescope): HeightRange {
  const all = heightsOf(telescope)
  return { lowCm: Math.min(...all.map(({ lowCm }) => lowCm)), highCm: Math.max(...all.map(({ highCm }) => highCm)) }
}

function heightsOf(telescope: Telescope): readonly HeightRange[] {
  const leastDeg = Math.max(WELL_PLACED_DEG.least, telescope.floorDeg)
  const mostDeg = Math.max(leastDeg, Math.min(WELL_PLACED_DEG.most, telescope.ceilingDeg))
  return telescope.tubes.flatMap((tube) =>
    [leastDeg, mostDeg].map((altitudeDeg) => eyepieceHeight(telescope, tube, altitudeDeg)),
  )
}

function heightRoles(telescope: Telescope): Role[] {
  const heights = heightsOf(telescope)
  const { lowCm, highCm } = eyepieceRange(telescope)
  const values = { low: Math.round(lowCm), high: Math.round(highCm) }
  return [
    ...(heights.every(isForChild) ? [good('children', values)] : []),
    ...(heights.every((height) => isForChair(height, telescope)) ? [good('seated', values)] : []),
    ...(heights.some(needsStep) ? [caution('step', values)] : []),
  ]
}

function lightRoles(tubes: readonly ShownTube[]): Role[] {
  const usable = tubes.flatMap((tube) => tube.views.filter(({ view }) => view.powerX <= tube.highestPowerX))
  const powers = usable.map(({ view }) => view.powerX).filter((powerX) => powerX >= PLANET_POWER.least)
  const widestDeg = Math.max(...usable.map(({ view }) => view.trueFieldDeg))
  const [largest] = tubes.toSorted((a, b) => b.lightGrasp - a.lightGrasp)
  const isLarge = largest !== undefined && largest.tube.apertureMm >= FAINT_APERTURE_MM
  return [
    ...(powers.length > 0 ? [good('bright', { power: Math.round(Math.max(...powers)) })] : []),
    ...(isLarge ? [good('faint', { times: Number(largest.lightGrasp.toPrecision(2)) })] : []),
    ...(widestDeg >= PLEIADES_FIELD_DEG ? [good('wide', {})] : []),
  ]
}

const toTens = (sec: number): number => 10 * Math.round(sec / 10)

function handRoles({ mount, tubes }: Telescope, shown: readonly ShownTube[]): Role[] {
  const drifts = shown.flatMap(({ views }) => views.flatMap(({ driftSec }) => driftSec ?? []))
  return [
    mount === 'altaz-hand'
      ? caution('nudged', { least: toTens(Math.min(...drifts)), most: toTens(Math.max(...drifts)) })
      : good('newcomer', {}),
    ...(tubes.length > 1 ? [caution('two-looks', {})] : []),
  ]
}

const good = (name: string, values: Remark['values'] & object): Role => ({
  code: `kit.role-${name}`,
  values,
  isCaution: false,
})
const caution = (name: string, values: Remark['values'] & object): Role => ({ ...good(name, values), isCaution: true })
