import { separationDeg } from '../sky/angles.ts'
import type { Horizontal } from '../sky/horizontal.ts'
import type { EveningSky } from './evening.ts'
import type { Site } from './site.ts'
import { instantAtStep, stepAt, sunAtStep, targetAtStep } from './sky-at.ts'
import { skylineAt } from './skyline.ts'
import type { Telescope } from './telescope.ts'
import type { Cause, LeaveBy } from './tour.ts'

const CLEAR_OF_TREES_DEG = 2
const LOWEST_DEG = 10
const SUN_UP_DEG = -0.833
const SUN_WIDTH_DEG = 20

/** Where a station stands and how far its mount reaches: what decides whether a thing is well placed for it. */
export interface Gate {
  readonly sky: EveningSky
  readonly site: Pick<Site, 'horizon'>
  readonly mount: Pick<Telescope, 'floorDeg' | 'ceilingDeg'>
  /** Keys that the host has turned on by hand before sunset; never within 20 degrees of the Sun. */
  readonly turnedOn?: readonly string[]
}

/** The one gate: null when a target is well placed at a station, else the first thing that stands in the way. */
export function whyNotAt(gate: Gate, targetIndex: number, at: Date): Cause | null {
  return whyNotAtStep(gate, targetIndex, stepAt(gate.sky, at))
}

/** The same at a fraction of a step of the evening's sky. */
export function whyNotAtStep(gate: Gate, targetIndex: number, step: number): Cause | null {
  const place = targetAtStep(gate.sky, targetIndex, step)
  const isTurnedOn = gate.turnedOn?.includes(gate.sky.targetKeys[targetIndex] ?? '') ?? false
  return sunCause(place, sunAtStep(gate.sky, step), isTurnedOn) ?? placeCause(place, gate.site, gate.mount)
}

/** While the Sun is up only what the host turned on, and never anything within 20 degrees of it. */
export function sunCause(place: Horizontal, sun: Horizontal, isTurnedOn: boolean): Cause | null {
  if (sun.altitudeDeg < SUN_UP_DEG) return null
  const apart = separationDeg(place.azimuthDeg, place.altitudeDeg, sun.azimuthDeg, sun.altitudeDeg)
  return isTurnedOn && apart >= SUN_WIDTH_DEG ? null : { code: 'sun' }
}

/** Trees and 2 degrees, never under 10 degrees or the mount's floor, never above its ceiling. */
export function placeCause(place: Horizontal, site: Gate['site'], mount: Gate['mount']): Cause | null {
  if (place.altitudeDeg < 0) return { code: 'set' }
  if (place.altitudeDeg > mount.ceilingDeg) return { code: 'high' }
  const top = skylineAt(site.horizon, place.azimuthDeg)
  const floorDeg = Math.max(LOWEST_DEG, mount.floorDeg)
  const treesDeg = top.altitudeDeg + CLEAR_OF_TREES_DEG
  if (treesDeg > floorDeg && place.altitudeDeg < treesDeg) return { code: 'skyline', name: top.name }
  return place.altitudeDeg < floorDeg ? { code: 'low' } : null
}

/** What stands in the way at a fraction of a step of the evening, or null. */
export type WhyNot = (step: number) => Cause | null

/** The gate for one target as a question by step. */
export const whyNotOf =
  (gate: Gate, targetIndex: number): WhyNot =>
  (step) =>
    whyNotAtStep(gate, targetIndex, step)

/** When and why a target that is well placed at `fromAt` stops being so before `untilAt`, to the minute; null when it does not. */
export const leaveBy = (sky: EveningSky, whyNot: WhyNot, fromAt: Date, untilAt: Date): LeaveBy | null =>
  turnOf(sky, whyNot, fromAt, untilAt, true)

/** When a target that is not well placed at `fromAt` becomes so before `untilAt`, with what stood in the way till then; null when it does not. */
export const comesAt = (sky: EveningSky, whyNot: WhyNot, fromAt: Date, untilAt: Date): LeaveBy | null =>
  turnOf(sky, whyNot, fromAt, untilAt, false)

function turnOf(sky: EveningSky, whyNot: WhyNot, fromAt: Date, untilAt: Date, isLeaving: boolean): LeaveBy | null {
  const end = stepAt(sky, untilAt)
  let low = stepAt(sky, fromAt)
  while (low < end) {
    const high = Math.min(low + 1, end)
    if ((whyNot(high) !== null) === isLeaving) return turnBetween(sky, whyNot, low, high, isLeaving)
    low = high
  }
  return null
}

/** Halves the five minutes in which the turn falls until it is known to ten seconds; a leave-by is rounded down, a coming up. */
function turnBetween(sky: EveningSky, whyNot: WhyNot, from: number, to: number, isLeaving: boolean): LeaveBy {
  let [low, high] = [from, to]
  for (let round = 0; round < 5; round++) {
    const middle = (low + high) / 2
    if ((whyNot(middle) !== null) === isLeaving) high = middle
    else low = middle
  }
  const cause = whyNot(isLeaving ? high : low) ?? { code: 'low' }
  const minutes = instantAtStep(sky, isLeaving ? low : high).getTime() / 60_000
  return { at: new Date((isLeaving ? Math.floor(minutes) : Math.ceil(minutes)) * 60_000), cause }
}
