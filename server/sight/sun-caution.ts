import { isSunUp } from '../sky/sun-up.ts'
import type { Reason } from './reasons.ts'
import type { SkyGeometry } from './sky-brightness.ts'

const NEAR_SUN_DEG = 20 // a slip of a finder is no wider; common practice, no source

/** What to be warned of before a telescope is turned to this place: the Sun within 20 degrees of it, or up at all; null while the Sun is down. */
export function sunCaution({ sunAltitudeDeg, sunSeparationDeg }: SkyGeometry): Reason | null {
  if (!isSunUp(sunAltitudeDeg)) return null
  if (sunSeparationDeg > NEAR_SUN_DEG) return { code: 'sight.caution-sun-up' }
  return { code: 'sight.caution-near-sun', values: { separation: Math.floor(sunSeparationDeg) } }
}
