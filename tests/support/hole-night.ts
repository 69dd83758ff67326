const BEARINGS: Readonly<Record<string, number>> = { n: 0, ne: 45, e: 90, se: 135, s: 180, sw: 225, w: 270, nw: 315 }

/** Half the width of a direction in degrees, with room for rounding. */
export const INSIDE_DEG = 22.5 + 1e-6

/** The angle along the horizon between a direction and an azimuth, in degrees. */
export function angleBetween(direction: string, azimuthDeg: number): number {
  const away = Math.abs((BEARINGS[direction] ?? Number.NaN) - azimuthDeg)
  return Math.min(away, 360 - away)
}
