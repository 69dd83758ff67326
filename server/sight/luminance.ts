const MAG_AT_ONE_CD = 12.58 // Crumey, MNRAS 442 (2014), section 1.3; the exact 12.584 and the meter makers' 1.08e5 differ by under 1 %
const CD_PER_NANOLAMBERT = 1e-5 / Math.PI // definition of the lambert: 1/pi candela per square centimetre

/** Luminance in cd/m^2 of a sky of so many V magnitudes per square arcsecond. */
export const cdFromMag = (magPerArcsec2: number): number => 10 ** (0.4 * (MAG_AT_ONE_CD - magPerArcsec2))

/** V magnitudes per square arcsecond of a luminance in cd/m^2 above 0. */
export const magFromCd = (cd: number): number => MAG_AT_ONE_CD - 2.5 * Math.log10(cd)

/** Luminance in cd/m^2 of so many nanolamberts. */
export const cdFromNanolambert = (nanolambert: number): number => nanolambert * CD_PER_NANOLAMBERT
