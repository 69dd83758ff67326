import type { ObjectKind, ShowObject } from './target.ts'

const GLOWING: readonly ObjectKind[] = ['galaxy', 'planetary', 'nebula', 'remnant', 'comet']
const ARCSEC2_PER_ARCMIN2 = 3600
const ARCMIN_PER_RADIAN = (180 * 60) / Math.PI
const HALF_MAG = 2.5 * Math.log10(2)

type Shape = Pick<ShowObject, 'kind' | 'magnitude' | 'majorArcmin' | 'minorArcmin' | 'halfLightArcmin'>

/**
 * Mean surface brightness in magnitudes per square arcsecond: of a glow over the ellipse that an eye sees, of a globular
 * cluster inside its half-light radius; null for what does not glow, and where light or size is unknown.
 */
export function surfaceBrightness({
  kind,
  magnitude,
  majorArcmin,
  minorArcmin,
  halfLightArcmin,
}: Shape): number | null {
  if (magnitude === null) return null
  if (kind === 'globular')
    return halfLightArcmin && spread(magnitude + HALF_MAG, 2 * halfLightArcmin, 2 * halfLightArcmin)
  if (!GLOWING.includes(kind) || majorArcmin === null || minorArcmin === null) return null
  return spread(magnitude, majorArcmin, minorArcmin)
}

const spread = (magnitude: number, majorArcmin: number, minorArcmin: number): number =>
  magnitude + 2.5 * Math.log10((Math.PI / 4) * majorArcmin * minorArcmin * ARCSEC2_PER_ARCMIN2)

/** How many light-years the long side that an eye sees spans; null where size or distance is unknown. */
export const trueSizeLy = ({
  majorArcmin,
  distanceLy,
}: Pick<ShowObject, 'majorArcmin' | 'distanceLy'>): number | null =>
  majorArcmin === null || distanceLy === null ? null : (majorArcmin / ARCMIN_PER_RADIAN) * distanceLy
