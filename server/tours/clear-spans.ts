import type { EveningSky } from './evening.ts'
import { comesAt, leaveBy, type WhyNot } from './offered.ts'
import { stepAt } from './sky-at.ts'
import type { Cause } from './tour.ts'

/** A time in which a target is well placed, with what stood before it and what comes after; null at an end of the time asked for. */
export interface ClearSpan {
  readonly fromAt: Date
  readonly untilAt: Date
  readonly before: Cause | null
  readonly after: Cause | null
}

const MINUTE_MS = 60_000

/** When a target is well placed between two instants, to the minute, in order; [] when never. */
export function clearSpans(sky: EveningSky, whyNot: WhyNot, fromAt: Date, untilAt: Date): readonly ClearSpan[] {
  const spans: ClearSpan[] = []
  let at = fromAt
  let before: Cause | null = null
  while (at < untilAt) {
    if (whyNot(stepAt(sky, at)) !== null) {
      const comes = comesAt(sky, whyNot, at, untilAt)
      if (comes === null) break
      before = comes.cause
      at = comes.at > at ? comes.at : new Date(at.getTime() + MINUTE_MS)
      continue
    }
    const leave = leaveBy(sky, whyNot, at, untilAt)
    const endsAt = leave?.at ?? untilAt
    if (endsAt > at) spans.push({ fromAt: at, untilAt: endsAt, before, after: leave?.cause ?? null })
    before = leave?.cause ?? null
    at = new Date(Math.max(endsAt.getTime(), at.getTime()) + MINUTE_MS)
  }
  return spans
}
