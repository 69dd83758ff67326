import { clamp, wrap360 } from './angles.ts'
import { constellationCode } from './engine.ts'

/** The IAU's three-letter code (`Ori`, `UMa`) of the constellation around a J2000 right ascension and declination in degrees. */
export const constellationOf = (raDeg: number, decDeg: number): string =>
  constellationCode(wrap360(raDeg), clamp(decDeg, -90, 90))
