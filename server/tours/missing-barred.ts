import { clearSpans } from './clear-spans.ts'
import type { EveningSky } from './evening.ts'
import { nightHours } from './hours.ts'
import type { Night } from './night.ts'
import { type WhyNot, whyNotOf } from './offered.ts'
import { stepAt } from './sky-at.ts'
import type { Cause } from './tour.ts'

/** A time in which something stands in the way; null for an end that is the opening or the closing. */
export interface Barred {
  readonly cause: Cause
  readonly fromAt: Date | null
  readonly untilAt: Date | null
}

interface BarInput {
  readonly night: Night
  readonly sky: EveningSky
}

/** Shorter ones do not keep a thing off a programme of quarter hours. */
const LEAST_MS = 900_000

/** The longest time of the public hours in which no telescope of the row can be turned to a target; null when none lasts a quarter hour. */
export function longestBar(input: BarInput, targetIndex: number): Barred | null {
  const { opensAt, closesAt } = nightHours(input.night)
  const lengthMs = ({ fromAt, untilAt }: Barred): number =>
    (untilAt ?? closesAt).getTime() - (fromAt ?? opensAt).getTime()
  const longest = barsOf(input, targetIndex).sort((a, b) => lengthMs(b) - lengthMs(a))[0]
  return longest !== undefined && lengthMs(longest) >= LEAST_MS ? longest : null
}

/** The times between those in which some telescope has it well placed. */
function barsOf({ night, sky }: BarInput, targetIndex: number): Barred[] {
  const whyNot = noneOfRow({ night, sky }, targetIndex)
  const { opensAt, closesAt } = nightHours(night)
  const spans = clearSpans(sky, whyNot, opensAt, closesAt)
  const bars: Barred[] = []
  let fromAt: Date | null = null
  for (const span of spans) {
    if (span.before !== null) bars.push({ cause: span.before, fromAt, untilAt: span.fromAt })
    fromAt = span.untilAt
  }
  const middle = (stepAt(sky, opensAt) + stepAt(sky, closesAt)) / 2
  const after = spans.length === 0 ? whyNot(middle) : spans.at(-1)?.after
  return after ? [...bars, { cause: after, fromAt, untilAt: null }] : bars
}

/** What stands in the way of every telescope of the row: null as soon as one has the target well placed. */
function noneOfRow({ night, sky }: BarInput, targetIndex: number): WhyNot {
  const gates = night.stations.flatMap(({ telescope }) =>
    telescope === null ? [] : [whyNotOf({ sky, site: night.site, mount: telescope }, targetIndex)],
  )
  const atStep = (step: number): Cause | null => {
    let first: Cause | null = null
    for (const gate of gates) {
      const cause = gate(step)
      if (cause === null) return null
      first ??= cause
    }
    return first
  }
  const watched = (from: number, to: number) =>
    [...new Set(gates.flatMap((gate) => gate.watched(from, to)))].sort((a, b) => a - b)
  return Object.assign(atStep, { watched })
}
