import type { Length, LineEvening } from './simulation-lines.ts'
import type { Present } from './simulation-visitors.ts'

/** What is kept of one simulated evening. */
export interface LineSummary {
  readonly visitors: number
  readonly gaveUp: number
  /** By number of different things, from none on: visitors who saw just so many. */
  readonly sawJust: readonly number[]
  /** By half hour: people on the field, each by the share of it that they were there. */
  readonly people: readonly number[]
  /** By half hour and station: the most in the line at one time, who looks included. */
  readonly longest: readonly (readonly number[])[]
  /** By station and stop. */
  readonly stops: readonly (readonly StopSummary[])[]
}

interface StopSummary {
  readonly looks: number
  /** Minutes from joining the line to the look, in the order of the looks. */
  readonly waitsMin: readonly number[]
  /** From when nobody who joins would still look before the stop ends. */
  readonly closedSec: number
}

/** Sums up an evening that is over, by the half hours of its table of visitors. */
export function summaryOf(evening: LineEvening, present: readonly Present[]): LineSummary {
  const { input, people, gaveUp } = evening
  const sawJust: number[] = []
  for (const { seen } of people) sawJust[seen.size] = (sawJust[seen.size] ?? 0) + 1
  const byStation = input.stations.map((_, s) => evening.lengths.filter(({ station }) => station === s))
  return {
    visitors: input.visitors.length,
    gaveUp,
    sawJust: Array.from(sawJust, (count) => count ?? 0),
    people: present.map((row) => presentIn(evening, row)),
    longest: present.map((row) => byStation.map((lengths) => longestIn(lengths, row))),
    stops: stopSummaries(evening),
  }
}

function stopSummaries({ lines, turns }: LineEvening): StopSummary[][] {
  const waits = lines.map((row) => row.map((): number[] => []))
  for (const { station, stop, joinedSec, fromSec } of turns) waits[station]?.[stop]?.push((fromSec - joinedSec) / 60)
  return lines.map((row, s) =>
    row.map(({ stop, closedSec }, number) => {
      const waitsMin = waits[s]?.[number] ?? []
      return { looks: waitsMin.length * stop.eyepieces, waitsMin, closedSec }
    }),
  )
}

function presentIn({ input }: LineEvening, { fromSec, untilSec }: Present): number {
  let there = 0
  for (const { arrivesSec, leavesSec } of input.visitors)
    there += Math.max(0, Math.min(leavesSec, untilSec) - Math.max(arrivesSec, fromSec))
  return there / Math.max(1, untilSec - fromSec)
}

/** What stood there when the half hour began counts too. */
function longestIn(lengths: readonly Length[], { fromSec, untilSec }: Present): number {
  let [before, most] = [0, 0]
  for (const { sec, people } of lengths) {
    if (sec >= untilSec) break
    if (sec <= fromSec) before = people
    else most = Math.max(most, people)
  }
  return Math.max(before, most)
}
