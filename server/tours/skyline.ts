import { wrap360 } from '../sky/angles.ts'
import type { SkylinePoint } from './site.ts'

const LEVEL: SkylinePoint = { azimuthDeg: 0, altitudeDeg: 0, name: '' }

/** Top of what stands at one compass point, in degrees above the level horizon, and what it is; name '' for nothing named. */
export interface SkylineTop {
  readonly altitudeDeg: number
  readonly name: string
}

/**
 * The skyline at an azimuth (degrees from north through east): linear between neighbouring points around the compass,
 * named after the nearer point of the two that has a name. Without points the horizon is level.
 */
export function skylineAt(points: readonly SkylinePoint[], azimuthDeg: number): SkylineTop {
  const azimuth = wrap360(azimuthDeg)
  let [before, after, back, ahead] = [LEVEL, LEVEL, 360, 360]
  for (const point of points) {
    const behind = wrap360(azimuth - point.azimuthDeg)
    if (behind < back) [before, back] = [point, behind]
    const beyond = wrap360(point.azimuthDeg - azimuth)
    if (beyond < ahead) [after, ahead] = [point, beyond]
  }
  const width = back + ahead
  const share = width === 0 ? 0 : back / width
  const altitudeDeg = before.altitudeDeg + share * (after.altitudeDeg - before.altitudeDeg)
  const [near, far] = share < 0.5 ? [before, after] : [after, before]
  return { altitudeDeg, name: near.name || far.name }
}

/** Azimuths in degrees at which the skyline, or a level floor where that is higher, bends: between two of them both are straight. */
export function bendsOf(points: readonly SkylinePoint[], floorDeg: number): readonly number[] {
  const around = points.toSorted((a, b) => a.azimuthDeg - b.azimuthDeg)
  return around.flatMap((point, i) => {
    const next = around[(i + 1) % around.length] ?? point
    const share = (floorDeg - point.altitudeDeg) / (next.altitudeDeg - point.altitudeDeg)
    const widthDeg = wrap360(next.azimuthDeg - point.azimuthDeg)
    return share > 0 && share < 1
      ? [point.azimuthDeg, wrap360(point.azimuthDeg + share * widthDeg)]
      : [point.azimuthDeg]
  })
}
