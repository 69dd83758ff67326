/*
 * Conventions of the whole service: degrees at every boundary, radians only inside a body; latitude north, longitude east,
 * hour angle west and altitude up are positive; azimuth runs from north (0) through east (90); position angles run from
 * north through east; right ascension is in degrees, 0 up to 360.
 */

/** Degrees turned into radians. */
export const radians = (angleDeg: number): number => (angleDeg * Math.PI) / 180

/** Radians turned into degrees. */
export const degrees = (angleRad: number): number => (angleRad * 180) / Math.PI

/** The same direction in degrees, 0 up to but not including 360. */
export function wrap360(angleDeg: number): number {
  const rest = angleDeg % 360
  const turned = rest < 0 ? rest + 360 : rest
  return turned >= 360 ? 0 : turned + 0
}

/** The same direction in degrees, from -180 up to but not including 180. */
export const wrap180 = (angleDeg: number): number => wrap360(angleDeg + 180) - 180

/** The number itself, or the nearer end of the range when it lies outside; NaN stays NaN. */
export const clamp = (value: number, least: number, most: number): number => Math.min(most, Math.max(least, value))

/**
 * The angle between two directions on a sphere in degrees, 0 to 180, exact for tiny and for opposite pairs.
 * Longitudes and latitudes may be right ascension and declination, or azimuth and altitude (Vincenty's form of the
 * spherical cosine law).
 */
export function separationDeg(lon1Deg: number, lat1Deg: number, lon2Deg: number, lat2Deg: number): number {
  const [lat1, lat2, turn] = [radians(lat1Deg), radians(lat2Deg), radians(lon2Deg - lon1Deg)]
  const across = Math.cos(lat2) * Math.sin(turn)
  const along = Math.cos(lat1) * Math.sin(lat2) - Math.sin(lat1) * Math.cos(lat2) * Math.cos(turn)
  const within = Math.sin(lat1) * Math.sin(lat2) + Math.cos(lat1) * Math.cos(lat2) * Math.cos(turn)
  return degrees(Math.atan2(Math.hypot(across, along), within))
}
