import { bodyLook } from '../sky/body.ts'
import type { SkyEvening } from '../sky/evening.ts'
import { isSunUp } from '../sky/sun-up.ts'
import { placeOf, type Site } from './site.ts'

/** What the Sun does in an evening. */
export type SunTonight = 'sets' | 'stays-up' | 'stays-down'

/** Where it does not set, the Sun is above or below the horizon for good: as it stands at an instant of that evening. */
export function sunTonight(site: Site, { sunsetAt }: Pick<SkyEvening, 'sunsetAt'>, at: Date): SunTonight {
  if (sunsetAt !== null) return 'sets'
  return isSunUp(bodyLook('sun', at, placeOf(site)).altitudeDeg) ? 'stays-up' : 'stays-down'
}
