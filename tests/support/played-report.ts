import { expect } from 'vitest'
import { minOf, type PlayedNotes } from './played-stage.ts'

interface Looks {
  readonly looks: number
}

/** The parts of a report that a script has counted for itself, as the API tells them. */
interface ToldReport extends Looks {
  readonly showings: readonly (Looks & {
    readonly stationId: string
    readonly targetKey: string
    readonly fromAt: string
    readonly toAt: string
    readonly told: string
  })[]
  readonly looksByTarget: readonly Looks[]
  readonly stations: readonly Looks[]
  readonly halfHours: readonly (Looks & {
    readonly at: string
    readonly waits: readonly { readonly waitMin: number }[]
  })[]
  readonly people: Pick<PlayedNotes, 'came' | 'left'> & {
    readonly peak: { readonly people: number; readonly at: string }
  }
  readonly acted: readonly { readonly by: string; readonly acts: number }[]
  readonly seen: readonly { readonly they?: number; readonly half?: number }[]
}

const sumOf = (parts: readonly Looks[]): number => parts.reduce((total, { looks }) => total + looks, 0)

/** What was shown, by whom it is known, and the looks, in all and in every part. */
export function judgeShowings(report: ToldReport, notes: PlayedNotes): void {
  const told = report.showings.map(({ stationId, targetKey, fromAt, toAt, told, looks }) => {
    const [fromMin, toMin, isSaid] = [minOf(fromAt), minOf(toAt), told === 'mark']
    return { stationId, targetKey, fromMin, toMin, isSaid, looks }
  })
  const noted = notes.stations.flatMap((station) => station.noted)
  expect(noted.length).toBeGreaterThan(6)
  expect(told).toEqual(noted)
  const looks = sumOf(noted)
  expect(looks).toBeGreaterThan(200)
  const { looksByTarget, stations, halfHours } = report
  expect([report.looks, ...[looksByTarget, stations, halfHours].map(sumOf)]).toEqual([looks, looks, looks, looks])
}

/** Who came and left, the most at once, and the waits in the lines. */
export function judgePeople(report: ToldReport, notes: PlayedNotes): void {
  const { came, left, peak } = report.people
  expect([came, left]).toEqual([notes.came, notes.left])
  expect([peak.people, minOf(peak.at)]).toEqual([notes.peak.people, notes.peak.min])
  const waits = report.halfHours.flatMap(({ at, waits }) => waits.map((wait) => ({ min: minOf(at), ...wait })))
  expect(waits).toMatchObject(notes.waits)
  expect(waits).toHaveLength(notes.waits.length)
  expect(notes.waits.length).toBeGreaterThan(12)
  expect(waits.some(({ waitMin }) => waitMin > 5)).toBe(true)
}

/** Who acted how often, as the host reads it, and what people said that they had seen. */
export function judgeActs(report: ToldReport, notes: PlayedNotes): void {
  const acts = new Map(report.acted.map(({ by, acts }) => [by, acts]))
  for (const name of ['Jonas', 'Adaeze', 'Pirkko']) expect(acts.get(name)).toBe(notes.acts.get(name))
  expect(report.seen.map(({ they = 0, half = 0 }) => they + half)).toEqual([...notes.seen.values()])
}
