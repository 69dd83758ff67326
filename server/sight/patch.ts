import type { Limit } from './limit.ts'

/** Light within growing areas of a thing: areas in square arcminutes, and the share of the whole light within each, as natural logarithms. */
export interface Patch {
  readonly magnitude: number
  readonly logAreas: readonly number[]
  readonly logShares: readonly number[]
  /** The same, plain, to the power 0.6, the exponent of every night sky. */
  readonly nightAreas: readonly number[]
  readonly nightShares: readonly number[]
}

const NIGHT_EXPONENT = 0.6
/** A thing wider than this share of the true field has no sky beside it to stand out from (0.7 is common practice, no source). */
const FIELD_SHARE = 0.7

/** How a light profile is spread: the share of light within a radius (in units of its own), for a thing whose unit is so many arcminutes. */
function patch(magnitude: number, areas: readonly number[], shares: readonly number[]): Patch {
  const night = (values: readonly number[]) => values.map((value) => value ** NIGHT_EXPONENT)
  const logs = { logAreas: areas.map(Math.log), logShares: shares.map(Math.log) }
  return { magnitude, ...logs, nightAreas: night(areas), nightShares: night(shares) }
}

/** The largest area in square arcminutes that still has sky around it in a true field of so many degrees. */
const widestArea = (trueFieldDeg: number): number => (Math.PI / 4) * (FIELD_SHARE * trueFieldDeg * 60) ** 2

/** A patch of one brightness all over, cut off by the field. */
export function uniformPatch(magnitude: number, areaArcmin2: number, trueFieldDeg: number): Patch {
  const area = Math.min(areaArcmin2, widestArea(trueFieldDeg))
  return patch(magnitude, [area], [area / areaArcmin2])
}

const STEPS = 28
const FIRST_UNIT = 0.06
const STEP = 1.2

/** A thing that fades outwards: unit area in square arcminutes, the share of light within x unit radii; enclosed areas beyond the field are left out. */
function fadingPatch(magnitude: number, unitArea: number, within: (x: number) => number, trueFieldDeg: number): Patch {
  const widest = Math.sqrt(widestArea(trueFieldDeg) / unitArea)
  const radii = Array.from({ length: STEPS }, (_, i) => FIRST_UNIT * STEP ** i).filter((x) => x < widest)
  const kept = radii.length === STEPS ? radii : [...radii, widest]
  return patch(
    magnitude,
    kept.map((x) => unitArea * x * x),
    kept.map(within),
  )
}

/** The catalogue's radius in scale lengths: 3.7 gives bright galaxies of published size the margins that observers report (a choice; a pure Freeman disc has 3.1). */
const SCALES_PER_RADIUS = 3.7

/** A thing that fades outwards exponentially, a galaxy's disc or a cloud with a bright heart, from total magnitude and catalogue axes in arcminutes. */
export function discPatch(magnitude: number, major: number, minor: number, trueFieldDeg: number): Patch {
  const unitArea = (Math.PI * major * minor) / 4 / SCALES_PER_RADIUS ** 2
  return fadingPatch(magnitude, unitArea, (x) => 1 - (1 + x) * Math.exp(-x), trueFieldDeg)
}

/** A globular cluster: half of the light within the half-light radius in arcminutes (Plummer, MNRAS 71 (1911), 460, in projection). */
export const globularPatch = (magnitude: number, halfLightArcmin: number, trueFieldDeg: number): Patch =>
  fadingPatch(magnitude, Math.PI * halfLightArcmin ** 2, (x) => (x * x) / (1 + x * x), trueFieldDeg)

/** A comet's coma: share of light within a share of its radius x is x^p, p = 2 for an even glow (condensation 0), 1 near 4 to 5 for gas that streams off freely (its light falls as 1/distance), 0 for a star-like one (9). */
export function comaPatch(magnitude: number, comaArcmin: number, condensation: number, trueFieldDeg: number): Patch {
  const exponent = 2 * (1 - condensation / 9)
  const unitArea = (Math.PI / 4) * comaArcmin ** 2
  return fadingPatch(magnitude, unitArea, (x) => Math.min(1, x ** exponent), trueFieldDeg)
}

/** By how many magnitudes a uniform patch of this magnitude and area in square arcminutes stands above the limit (Crumey eq. 62). */
export const uniformMargin = (limit: Limit, magnitude: number, areaArcmin2: number): number =>
  limit.patchMag -
  magnitude -
  (2.5 / limit.exponent) * Math.log10((areaArcmin2 / limit.patchArcmin2) ** limit.exponent + 1)

/** The best margin in magnitudes over all enclosed areas: the part of the thing that shows most easily. */
export function patchMargin(limit: Limit, thing: Patch): number {
  const best = limit.exponent === NIGHT_EXPONENT ? bestAtNight(limit, thing) : bestAnywhere(limit, thing)
  return limit.patchMag - thing.magnitude + (2.5 / limit.exponent) * Math.log10(best)
}

// Both answer (share / ((area / A)^q + 1)^(1/q))^q: the last logarithm is taken once, after the search.
function bestAtNight(limit: Limit, { nightAreas, nightShares }: Patch): number {
  const scale = limit.patchArcmin2 ** -NIGHT_EXPONENT
  let best = 0
  for (let i = 0; i < nightAreas.length; i++) {
    const value = (nightShares[i] ?? 0) / ((nightAreas[i] ?? 0) * scale + 1)
    if (value > best) best = value
  }
  return best
}

function bestAnywhere(limit: Limit, { logAreas, logShares }: Patch): number {
  let best = 0
  const { exponent } = limit
  const logUnit = Math.log(limit.patchArcmin2)
  for (let i = 0; i < logAreas.length; i++) {
    const size = Math.exp(exponent * ((logAreas[i] ?? 0) - logUnit))
    const value = Math.exp(exponent * (logShares[i] ?? 0)) / (size + 1)
    if (value > best) best = value
  }
  return best
}
