import { type fullRange, sizeExponent } from '../../server/sight/threshold.ts'

/** Threshold contrast of a uniform patch of so many steradians on a background in cd/m^2, by either law (Crumey, MNRAS 442 (2014), 2600, eq. 41, field factor 1). */
export function thresholdContrast(law: typeof fullRange, backgroundCd: number, areaSr: number): number {
  const q = sizeExponent(backgroundCd)
  return ((law.spread(backgroundCd) / areaSr) ** q + law.floor(backgroundCd) ** q) ** (1 / q)
}
