import { standing } from './fold.ts'
import type { Mark } from './mark.ts'
import { currentVersion } from './programme.ts'
import type { Tour } from './tour.ts'

/** What a report needs of a version of the programme. */
export type ReportTour = Pick<Tour, 'id' | 'version' | 'madeAt' | 'tookOverAtSeq' | 'stops'>

/** A time in which one programme held; null while there was none. */
export interface HeldSpan {
  readonly tour: ReportTour | null
  readonly fromAt: Date
  readonly untilAt: Date
}

/** The programme that held at an instant. The first one counts as there from the start, for a night may be entered afterwards. */
export function tourAt(tours: readonly ReportTour[], marks: readonly Mark[], at: Date): ReportTour | null {
  const first = Math.min(...tours.map(({ version }) => version))
  const made = tours.filter(({ version, madeAt }) => version === first || madeAt <= at)
  return currentVersion(made, actedBy(marks, at)) ?? null
}

const actedBy = (marks: readonly Mark[], at: Date): readonly Mark[] =>
  standing(marks).filter(({ happenedAt }) => happenedAt <= at)

/** The times from one instant to another, parted where another programme took over. */
export function heldSpans(
  tours: readonly ReportTour[],
  marks: readonly Mark[],
  fromAt: Date,
  untilAt: Date,
): HeldSpan[] {
  const accepted = standing(marks).filter(({ kind }) => kind === 'accepted')
  const turns = [...tours.map(({ madeAt }) => madeAt), ...accepted.map(({ happenedAt }) => happenedAt)]
    .filter((at) => fromAt < at && at < untilAt)
    .map((at) => at.getTime())
  const borders = [fromAt.getTime(), ...[...new Set(turns)].sort((a, b) => a - b), untilAt.getTime()]
  const spans: HeldSpan[] = []
  for (const [i, ms] of borders.slice(0, -1).entries()) {
    const tour = tourAt(tours, marks, new Date(ms))
    const before = spans.at(-1)
    const span = { tour, fromAt: new Date(ms), untilAt: new Date(borders[i + 1] ?? ms) }
    if (before && before.tour?.id === tour?.id) spans[spans.length - 1] = { ...before, untilAt: span.untilAt }
    else spans.push(span)
  }
  return spans
}
