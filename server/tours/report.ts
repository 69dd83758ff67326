import { actsUntil } from './fold.ts'
import { nightHours } from './hours.ts'
import { seenMarks } from './learning.ts'
import type { Mark } from './mark.ts'
import { payloadOf } from './mark-payload.ts'
import type { Night, Station } from './night.ts'
import { type VisitorEstimate, visitorEstimate } from './report-estimate.ts'
import type { ReportTour } from './report-held.ts'
import { type CountedShowing, withLooks } from './report-looks.ts'
import { countsOf, peopleThen, type ReportPeople, reportPeople } from './report-people.ts'
import { sumOf, sumsBy, wholeShares } from './report-shares.ts'
import { showingsOf } from './report-showings.ts'
import { halfHoursOf, type ReportWait, waitsOf } from './report-waits.ts'
import type { SkyPart } from './sky-part.ts'
import type { Heads } from './visitors.ts'

export interface ReportInput {
  readonly night: Night
  /** Every station that the night has ever had, the row included. */
  readonly stations: readonly Station[]
  readonly tours: readonly ReportTour[]
  readonly marks: readonly Mark[]
  readonly at: Date
}

/** Looks and people of one half hour; what was before the first or after the last belongs to that. */
interface ReportHalfHour extends Heads {
  readonly at: Date
  readonly looks: number
}

/** What newcomers said of one thing: taps, one a mark. */
interface ReportSeen {
  readonly targetKey: string
  readonly they: number
  readonly half: number
  readonly not: number
}

interface ReportSkip {
  readonly stationId: string | null
  readonly targetKey: string
  readonly why: string
  readonly at: Date
}

/** All that a night's programmes and marks tell of it, as far as it has come. */
export interface NightFacts {
  readonly at: Date
  /** True once the public hours are over. */
  readonly isOver: boolean
  /** From the first thing shown to the end of the last; null where nothing was shown. */
  readonly ran: { readonly fromAt: Date; readonly toAt: Date } | null
  readonly showings: readonly CountedShowing[]
  readonly looks: number
  readonly looksByTarget: readonly { readonly targetKey: string; readonly looks: number }[]
  readonly looksByStation: readonly { readonly stationId: string; readonly looks: number }[]
  readonly halfHours: readonly ReportHalfHour[]
  readonly people: ReportPeople
  readonly estimate: VisitorEstimate | null
  readonly waits: readonly ReportWait[]
  readonly seen: readonly ReportSeen[]
  readonly skipped: readonly ReportSkip[]
  /** When clouds were told, and of which parts of the sky; none of them when it opened again. */
  readonly clouds: readonly { readonly at: Date; readonly shut: readonly SkyPart[]; readonly minutes: number | null }[]
  /** Whoever acted, by the name of their phone, and how often. */
  readonly acted: readonly { readonly by: string; readonly acts: number }[]
  readonly marks: { readonly all: number; readonly timed: number; readonly counted: number; readonly seen: number }
}

/** What is told of a night up to an instant. */
export function nightFacts({ night, stations, tours, marks, at }: ReportInput): NightFacts {
  const acts = actsUntil(marks, at)
  const whole = { ...night, stations }
  const showings = withLooks(whole, showingsOf({ night: whole, tours, marks, at }), acts)
  const looks = sumOf(showings.map((showing) => showing.looks))
  const counts = countsOf(acts)
  const ran = ranOf(showings)
  const countOf = (kind: Mark['kind']) => acts.filter((mark) => mark.kind === kind).length
  return {
    at,
    isOver: nightHours(night).closesAt <= at,
    ran,
    showings,
    looks,
    looksByTarget: byName(showings, ({ targetKey }) => targetKey).map(([targetKey, sum]) => ({
      targetKey,
      looks: sum,
    })),
    looksByStation: byName(showings, ({ stationId }) => stationId).map(([stationId, sum]) => ({
      stationId,
      looks: sum,
    })),
    halfHours: halfHours(night, showings, counts),
    people: reportPeople(counts),
    estimate: visitorEstimate(night, counts, looks, ran),
    waits: waitsOf(night, tours, marks, at),
    seen: seenOf(acts),
    skipped: skippedOf(acts),
    clouds: cloudsOf(acts),
    acted: [
      ...sumsBy(
        acts,
        ({ by }) => by,
        () => 1,
      ),
    ].map(([by, sum]) => ({ by, acts: sum })),
    marks: { all: acts.length, timed: countOf('timed'), counted: countOf('counted'), seen: countOf('seen') },
  }
}

function ranOf(showings: readonly CountedShowing[]): NightFacts['ran'] {
  if (showings.length === 0) return null
  return {
    fromAt: new Date(Math.min(...showings.map(({ fromAt }) => fromAt.getTime()))),
    toAt: new Date(Math.max(...showings.map(({ toAt }) => toAt.getTime()))),
  }
}

const byName = (showings: readonly CountedShowing[], nameOf: (showing: CountedShowing) => string) =>
  [...sumsBy(showings, nameOf, ({ looks }) => looks)].sort((a, b) => b[1] - a[1])

/** The looks of every showing in whole parts by the time that it shares with each half hour. */
function halfHours(night: Night, showings: readonly CountedShowing[], counts: ReturnType<typeof countsOf>) {
  const starts = halfHoursOf(night)
  const borders = [
    Number.NEGATIVE_INFINITY,
    ...starts.slice(1).map((start) => start.getTime()),
    Number.POSITIVE_INFINITY,
  ]
  const parts = showings.map(({ fromAt, toAt, looks }) =>
    wholeShares(
      looks,
      starts.map((_, i) => {
        const [from, to] = [borders[i] ?? 0, borders[i + 1] ?? 0]
        return Math.max(0, Math.min(to, toAt.getTime()) - Math.max(from, fromAt.getTime()))
      }),
    ),
  )
  return starts.map((at, i) => ({
    at,
    looks: sumOf(parts.map((part) => part[i] ?? 0)),
    ...peopleThen(night, counts, at),
  }))
}

function seenOf(acts: readonly Mark[]): readonly ReportSeen[] {
  const marks = seenMarks(acts)
  const keys = [...new Set(marks.map(({ targetKey }) => targetKey))]
  return keys.map((targetKey) => {
    const countOf = (outcome: 'they' | 'half' | 'not') =>
      marks.filter((mark) => mark.targetKey === targetKey && mark.outcome === outcome).length
    return { targetKey, they: countOf('they'), half: countOf('half'), not: countOf('not') }
  })
}

const skippedOf = (acts: readonly Mark[]): readonly ReportSkip[] =>
  acts.flatMap((mark) => {
    const skipped = payloadOf('skipped', mark)
    if (skipped === null) return []
    return [{ stationId: mark.stationId, targetKey: skipped.targetKey, why: skipped.why, at: mark.happenedAt }]
  })

const cloudsOf = (acts: readonly Mark[]): NightFacts['clouds'] =>
  acts.flatMap((mark) => {
    const clouds = payloadOf('clouds', mark)
    return clouds === null ? [] : [{ at: mark.happenedAt, shut: clouds.shut, minutes: clouds.minutes }]
  })
