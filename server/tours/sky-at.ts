import type { SkyGeometry } from '../sight/sky-brightness.ts'
import { separationDeg, wrap180, wrap360 } from '../sky/angles.ts'
import type { Horizontal } from '../sky/horizontal.ts'
import type { EveningSky } from './evening.ts'

/** Place of an instant among the steps of the evening: a whole number on a step, less than 0 before the first. */
export const stepAt = (sky: EveningSky, at: Date): number =>
  (at.getTime() - sky.startsAt.getTime()) / (sky.stepMin * 60_000)

/** The instant of a step; fractions lie between steps. */
export const instantAtStep = (sky: EveningSky, step: number): Date =>
  new Date(sky.startsAt.getTime() + Math.round(step * sky.stepMin * 60_000))

/** A track at a fraction of a step, linear between steps, the end value beyond an end; `offset` is where its row starts. */
function trackAt(track: Float32Array, offset: number, count: number, step: number): number {
  const [low, share] = placeOf(count, step)
  const from = track[offset + low] ?? 0
  const to = track[offset + Math.min(low + 1, count - 1)] ?? from
  return from + share * (to - from)
}

/** An azimuth track at a fraction of a step in degrees, 0 to 360, the short way round between steps. */
function turnAt(track: Float32Array, offset: number, count: number, step: number): number {
  const [low, share] = placeOf(count, step)
  const from = track[offset + low] ?? 0
  const to = track[offset + Math.min(low + 1, count - 1)] ?? from
  return wrap360(from + share * wrap180(to - from))
}

function placeOf(count: number, step: number): readonly [number, number] {
  const clamped = Math.max(0, Math.min(count - 1, step))
  const low = Math.floor(clamped)
  return [low, clamped - low]
}

/** Apparent altitude and azimuth in degrees of target `index` at an instant, linear between the five-minute steps. */
export const targetAt = (sky: EveningSky, index: number, at: Date): Horizontal =>
  targetAtStep(sky, index, stepAt(sky, at))

/** The same at a fraction of a step. */
export const targetAtStep = (sky: EveningSky, index: number, step: number): Horizontal => ({
  altitudeDeg: trackAt(sky.altitudeDeg, index * sky.count, sky.count, step),
  azimuthDeg: turnAt(sky.azimuthDeg, index * sky.count, sky.count, step),
})

/** The Sun without refraction at a fraction of a step, in degrees. */
export const sunAtStep = (sky: EveningSky, step: number): Horizontal => ({
  altitudeDeg: trackAt(sky.sunAltitudeDeg, 0, sky.count, step),
  azimuthDeg: turnAt(sky.sunAzimuthDeg, 0, sky.count, step),
})

/** What the sight floor needs of a target's place at a whole step; the Moon's own light is left out for the Moon itself. */
export function geometryAtStep(sky: EveningSky, targetIndex: number, step: number): SkyGeometry {
  const at = targetIndex * sky.count + step
  const place = { altitudeDeg: sky.altitudeDeg[at] ?? 0, azimuthDeg: sky.azimuthDeg[at] ?? 0 }
  const geometry = geometryOfPlace(sky, place, step)
  return sky.targetKeys[targetIndex] === 'moon' ? { ...geometry, moon: null } : geometry
}

/** The same for a place of the sky at which no target stands. */
export function geometryOfPlace(sky: EveningSky, place: Horizontal, step: number): SkyGeometry {
  const sun = { altitudeDeg: sky.sunAltitudeDeg[step] ?? 0, azimuthDeg: sky.sunAzimuthDeg[step] ?? 0 }
  return {
    ...place,
    sunAltitudeDeg: sun.altitudeDeg,
    sunSeparationDeg: apartDeg(place, sun),
    moon: moonlightFrom(sky, place, step),
  }
}

function moonlightFrom(sky: EveningSky, place: Horizontal, step: number): SkyGeometry['moon'] {
  const altitudeDeg = sky.moonAltitudeDeg[step] ?? 0
  if (altitudeDeg <= 0) return null
  return {
    altitudeDeg,
    phaseAngleDeg: sky.moonPhaseAngleDeg[step] ?? 0,
    distanceKm: sky.moonDistanceKm[step] ?? 384_400,
    separationDeg: apartDeg(place, { altitudeDeg, azimuthDeg: sky.moonAzimuthDeg[step] ?? 0 }),
  }
}

/** The angle between two directions over the same place, in degrees. */
export const apartDeg = (a: Horizontal, b: Horizontal): number =>
  separationDeg(a.azimuthDeg, a.altitudeDeg, b.azimuthDeg, b.altitudeDeg)
