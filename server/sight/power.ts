import type { Conditions } from './conditions.ts'
import type { Optics } from './optics.ts'

const POWER_PER_MM = 2 // powers above twice the aperture in mm show nothing more; common practice, no source
const POWER_TIMES_BLUR = 350 // in air that blurs a star to 1" 350 times still holds; from memory, sources 300 to 400

/** The highest useful power of this tube tonight: the smaller of twice the aperture in mm and what the air allows. */
export const highestPower = (optics: Optics, conditions: Conditions): number =>
  Math.min(POWER_PER_MM * optics.apertureMm, POWER_TIMES_BLUR / conditions.seeingArcsec)
