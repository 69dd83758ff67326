import { wrap180 } from '../sky/angles.ts'
import type { Horizontal } from '../sky/horizontal.ts'
import { isSunUp } from '../sky/sun-up.ts'
import type { EveningSky } from './evening.ts'
import type { Site } from './site.ts'
import { instantAtStep, stepAt, sunAtStep, targetAtStep } from './sky-at.ts'
import { bendsOf, skylineAt } from './skyline.ts'
import type { Telescope } from './telescope.ts'
import type { Cause, LeaveBy } from './tour.ts'

const CLEAR_OF_TREES_DEG = 2
const LOWEST_DEG = 10

/** Where a station stands and how far its mount reaches: what decides whether a thing is well placed for it. */
export interface Gate {
  readonly sky: EveningSky
  readonly site: Pick<Site, 'horizon'>
  readonly mount: Pick<Telescope, 'floorDeg' | 'ceilingDeg'>
}

/** The one gate: null when a target is well placed at a station at a fraction of a step of the evening's sky, else the first thing that stands in the way. */
function whyNotAtStep(gate: Gate, targetIndex: number, step: number): Cause | null {
  return (
    sunCause(sunAtStep(gate.sky, step)) ?? placeCause(targetAtStep(gate.sky, targetIndex, step), gate.site, gate.mount)
  )
}

/** While any of the Sun is up (its centre above -0.833 degrees, without refraction) nothing is offered at all. */
export const sunCause = (sun: Horizontal): Cause | null => (isSunUp(sun.altitudeDeg) ? { code: 'sun' } : null)

/** Trees and 2 degrees, never under 10 degrees or the mount's floor, never above its ceiling. */
export function placeCause(place: Horizontal, site: Gate['site'], mount: Gate['mount']): Cause | null {
  if (place.altitudeDeg < 0) return { code: 'set' }
  if (place.altitudeDeg > mount.ceilingDeg) return { code: 'high' }
  const top = skylineAt(site.horizon, place.azimuthDeg)
  const floorDeg = floorDegOf(mount)
  const treesDeg = top.altitudeDeg + CLEAR_OF_TREES_DEG
  if (treesDeg > floorDeg && place.altitudeDeg < treesDeg) return { code: 'skyline', name: top.name }
  return place.altitudeDeg < floorDeg ? { code: 'low' } : null
}

const floorDegOf = (mount: Gate['mount']): number => Math.max(LOWEST_DEG, mount.floorDeg)

/** What stands in the way at a fraction of a step of the evening, or null. */
export interface WhyNot {
  (step: number): Cause | null
  /** The steps, whole or between, from one to another (both included) between which the answer does not turn and turn back. */
  readonly watched: (from: number, to: number) => readonly number[]
}

/** The gate for one target as a question by step. */
export const whyNotOf = (gate: Gate, targetIndex: number): WhyNot => {
  const bends = bendsOf(gate.site.horizon, floorDegOf(gate.mount) - CLEAR_OF_TREES_DEG)
  return Object.assign((step: number) => whyNotAtStep(gate, targetIndex, step), {
    watched: (from: number, to: number) => watchedSteps(gate.sky, targetIndex, bends, from, to),
  })
}

/** What stands in the way at any time between two steps, both included, or null: nothing is too narrow for it. */
export function whyNotWithin(gate: Gate, targetIndex: number, from: number, to: number): Cause | null {
  const atEnds = whyNotAtStep(gate, targetIndex, from) ?? whyNotAtStep(gate, targetIndex, to)
  if (atEnds !== null) return atEnds
  const whyNot = whyNotOf(gate, targetIndex)
  for (const step of whyNot.watched(from, to)) {
    const cause = whyNot(step)
    if (cause !== null) return cause
  }
  return null
}

/** Ends, whole steps, and the moments at which the target passes a bend of the skyline: it walks straight between them. */
function watchedSteps(sky: EveningSky, targetIndex: number, bends: readonly number[], from: number, to: number) {
  const watched = [from]
  for (let low = from; low < to; ) {
    const high = Math.min(Math.floor(low) + 1, to)
    const azimuthDeg = targetAtStep(sky, targetIndex, low).azimuthDeg
    const turnDeg = wrap180(targetAtStep(sky, targetIndex, high).azimuthDeg - azimuthDeg)
    const shares = bends.map((bendDeg) => wrap180(bendDeg - azimuthDeg) / turnDeg)
    const passed = shares.filter((share) => share > 0 && share < 1).sort((a, b) => a - b)
    watched.push(...passed.map((share) => low + share * (high - low)), high)
    low = high
  }
  return watched
}

/** When and why a target that is well placed at `fromAt` stops being so before `untilAt`, to the minute; null when it does not. */
export const leaveBy = (sky: EveningSky, whyNot: WhyNot, fromAt: Date, untilAt: Date): LeaveBy | null =>
  turnOf(sky, whyNot, fromAt, untilAt, true)

/**
 * When a target that is not well placed at `fromAt` becomes so before `untilAt`, with what stood in the way till then;
 * null when it does not. A gap that has closed again by the next full minute is passed over.
 */
export const comesAt = (sky: EveningSky, whyNot: WhyNot, fromAt: Date, untilAt: Date): LeaveBy | null =>
  turnOf(sky, whyNot, fromAt, untilAt, false)

function turnOf(sky: EveningSky, whyNot: WhyNot, fromAt: Date, untilAt: Date, isLeaving: boolean): LeaveBy | null {
  const [first = 0, ...watched] = whyNot.watched(stepAt(sky, fromAt), stepAt(sky, untilAt))
  let low = first
  for (const high of watched) {
    if ((whyNot(high) !== null) === isLeaving) {
      const turn = turnBetween(sky, whyNot, low, high, isLeaving)
      if (isLeaving || whyNot(stepAt(sky, turn.at)) === null) return turn
    }
    low = high
  }
  return null
}

/** Halves the time in which the turn falls until it is known to a second; a leave-by is rounded down, a coming up. */
function turnBetween(sky: EveningSky, whyNot: WhyNot, from: number, to: number, isLeaving: boolean): LeaveBy {
  let [low, high] = [from, to]
  for (let round = 0; round < 9; round++) {
    const middle = (low + high) / 2
    if ((whyNot(middle) !== null) === isLeaving) high = middle
    else low = middle
  }
  const cause = whyNot(isLeaving ? high : low) ?? { code: 'low' }
  const minutes = instantAtStep(sky, isLeaving ? low : high).getTime() / 60_000
  return { at: new Date((isLeaving ? Math.floor(minutes) : Math.ceil(minutes)) * 60_000), cause }
}
