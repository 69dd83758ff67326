import type { LineStation } from './simulation-lines.ts'
import type { LineSummary } from './simulation-summary.ts'
import type { Present } from './simulation-visitors.ts'

/** What came out of simulated evenings with one programme. Numbers of people and looks are means over the evenings. */
export interface LineReport {
  readonly evenings: number
  readonly visitors: number
  readonly looks: number
  /** Fewest and most looks of one evening. */
  readonly looksFrom: number
  readonly looksTo: number
  readonly looksByStation: readonly { readonly stationId: string; readonly looks: number }[]
  /** The most looked at first. */
  readonly looksByTarget: readonly { readonly targetKey: string; readonly looks: number }[]
  /** Minutes from joining a line to the look, over all who looked; null when nobody did. */
  readonly waitMedianMin: number | null
  readonly wait95Min: number | null
  readonly gaveUp: number
  /** Visitors who saw at least so many different things. */
  readonly sawAtLeast: readonly { readonly things: number; readonly visitors: number }[]
  /** 0 to 1. */
  readonly sawNothingShare: number
  readonly halfHours: readonly HalfHourLine[]
  readonly stops: readonly StopReport[]
}

/** One half hour: people on the field, and the line that grew longest in it. */
export interface HalfHourLine {
  readonly fromSec: number
  readonly people: number
  /** People in it, who looks included; null where nobody stood in any. */
  readonly longest: { readonly stationId: string; readonly people: number } | null
}

export interface StopReport {
  readonly stationId: string
  readonly targetKey: string
  readonly fromSec: number
  readonly untilSec: number
  readonly looks: number
  /** From when nobody who joins would still look, in the middle one of the evenings. */
  readonly closeSec: number
  readonly waitMedianMin: number | null
}

const THINGS_COUNTED = [1, 2, 3, 5] as const

/** Puts the evenings of one programme together; all must have these stations and half hours, and at least one is needed. */
export function lineReport(
  evenings: readonly LineSummary[],
  stations: readonly LineStation[],
  present: readonly Present[],
): LineReport {
  const stops = stations
    .flatMap((station, s) => station.stops.map((_, n) => stopReport(evenings, station, s, n)))
    .flat()
  const looks = evenings.map(looksOf)
  const visitors = meanOf(evenings, (evening) => evening.visitors)
  const seeing = (things: number) => meanOf(evenings, ({ sawJust }) => sumOf(sawJust.slice(things)))
  const waits = evenings.flatMap((evening) => evening.stops.flat().flatMap(({ waitsMin }) => waitsMin)).sort(rising)
  return {
    evenings: evenings.length,
    visitors,
    looks: meanOf(looks, (count) => count),
    looksFrom: Math.min(...looks),
    looksTo: Math.max(...looks),
    looksByStation: stations.map(({ stationId }) => ({
      stationId,
      looks: sumOf(stops.filter((stop) => stop.stationId === stationId).map((stop) => stop.looks)),
    })),
    looksByTarget: [...new Set(stops.map(({ targetKey }) => targetKey))]
      .map((targetKey) => ({
        targetKey,
        looks: sumOf(stops.filter((stop) => stop.targetKey === targetKey).map((stop) => stop.looks)),
      }))
      .sort((a, b) => b.looks - a.looks),
    waitMedianMin: shareOf(waits, 0.5),
    wait95Min: shareOf(waits, 0.95),
    gaveUp: meanOf(evenings, (evening) => evening.gaveUp),
    sawAtLeast: THINGS_COUNTED.map((things) => ({ things, visitors: seeing(things) })),
    sawNothingShare: visitors === 0 ? 0 : 1 - seeing(1) / visitors,
    halfHours: present.map((row, i) => halfHourOf(evenings, stations, row, i)),
    stops,
  }
}

function stopReport(evenings: readonly LineSummary[], station: LineStation, s: number, number: number): StopReport[] {
  const stop = station.stops[number]
  if (stop === undefined) return []
  const { targetKey, fromSec, untilSec } = stop
  const played = evenings.flatMap(({ stops }) => stops[s]?.[number] ?? [])
  const closings = played.map(({ closedSec }) => closedSec).sort(rising)
  const waits = played.flatMap(({ waitsMin }) => waitsMin).sort(rising)
  return [
    {
      stationId: station.stationId,
      targetKey,
      fromSec,
      untilSec,
      looks: meanOf(played, ({ looks }) => looks),
      closeSec: shareOf(closings, 0.5) ?? untilSec,
      waitMedianMin: shareOf(waits, 0.5),
    },
  ]
}

function halfHourOf(
  evenings: readonly LineSummary[],
  stations: readonly LineStation[],
  { fromSec }: Present,
  i: number,
): HalfHourLine {
  const [longest] = stations
    .map(({ stationId }, s) => ({ stationId, people: meanOf(evenings, (evening) => evening.longest[i]?.[s] ?? 0) }))
    .sort((a, b) => b.people - a.people)
  return {
    fromSec,
    people: meanOf(evenings, ({ people }) => people[i] ?? 0),
    longest: longest && longest.people > 0 ? longest : null,
  }
}

/** The value that a share (0 to 1) of the values, lowest first, does not exceed; null for none. */
export const shareOf = (sorted: readonly number[], share: number): number | null =>
  sorted[Math.max(0, Math.ceil(share * sorted.length) - 1)] ?? null

const rising = (a: number, b: number): number => a - b

const sumOf = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0)

const meanOf = <One>(all: readonly One[], value: (one: One) => number): number =>
  sumOf(all.map(value)) / Math.max(1, all.length)

const looksOf = ({ stops }: LineSummary): number => sumOf(stops.flat().map(({ looks }) => looks))
