/** The altitude of its centre, without refraction, from which on some of the Sun is up. */
export const SUN_UP_DEG = -0.833 // 50 arcminutes: half of the Sun's width and the refraction at the horizon (Meeus, chapter 15)

/** True while any of the Sun is up; takes the altitude of its centre without refraction, in degrees. */
export const isSunUp = (sunAltitudeDeg: number): boolean => sunAltitudeDeg >= SUN_UP_DEG
