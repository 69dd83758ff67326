import { Value } from 'typebox/value'
import type { NightClosing, ReportStore } from '../../db/reports.ts'
import type { TourStore } from '../../db/tours.ts'
import type { Clock } from '../clock.ts'
import { Fault, refuse } from '../errors.ts'
import { digestOf } from '../tours/digest.ts'
import { nightHours } from '../tours/hours.ts'
import type { Night, Station } from '../tours/night.ts'
import type { NightFacts, ReportInput } from '../tours/report.ts'
import { NO_EDITS, ReportEdits, reportEditProblems } from '../tours/report-edits.ts'
import { type Season, seasonOf } from '../tours/report-season.ts'
import type { GoNight } from './go.ts'
import { keptAnswers } from './kept-answers.ts'
import type { MarkLog } from './mark-log.ts'

/** The report of a night: what is reckoned, what the host wrote beside it, and what was decided. */
export interface NightReport {
  readonly night: Night
  readonly stations: readonly Station[]
  readonly facts: NightFacts
  readonly edits: ReportEdits
  readonly go: GoNight
  /** When its report was settled; null while it is not. */
  readonly closedAt: Date | null
}

/** Reports of nights, and seasons of them. */
export interface ReportDesk {
  of(nightId: string): Promise<NightReport>
  /** What the host has written; nothing is reckoned for it. */
  edits(nightId: string): ReportEdits
  /** Keeps the host's words and numbers beside the reckoned; an invalid Fault names what is wrong, a conflict that the night is closed. */
  edit(nightId: string, draft: unknown): void
  /** Settles a night whose public hours are over; a conflict Fault before that. */
  close(nightId: string): void
  /** Opens a closed night again, in the state that it had. */
  reopen(nightId: string): void
  /** The years with nights that are over, the latest first; `settled` asks for nights that are closed alone. */
  years(settled: boolean): readonly number[]
  /** The nights of a year that are over, or closed; those that were off are not in it. */
  season(year: number, settled: boolean): Promise<Season>
}

export interface ReportNeeds {
  readonly reports: ReportStore
  readonly nights: { all(): readonly Night[]; everyStation(id: string): readonly Station[] }
  readonly findNight: (id: string) => Night
  readonly tours: Pick<TourStore, 'versions' | 'find'>
  readonly log: MarkLog
  readonly goOf: (nightId: string) => GoNight
  /** Reckons in the worker. */
  readonly reckon: (input: ReportInput) => Promise<NightFacts>
  readonly clock: Clock
}

const KEPT = 60

export function reportDesk(needs: ReportNeeds): ReportDesk {
  const { reports, findNight, clock } = needs
  const factsOf = factTeller(needs)
  const editsOf = (id: string): ReportEdits => reports.edits(id) ?? NO_EDITS

  return {
    ...seasons(needs, factsOf),
    async of(nightId) {
      const night = findNight(nightId)
      const facts = await factsOf(night)
      return {
        night,
        stations: stationsOf(needs, night),
        facts,
        edits: editsOf(nightId),
        go: needs.goOf(nightId),
        closedAt: closedAt(night, reports.closing(nightId)),
      }
    },
    edits: (nightId) => editsOf(findNight(nightId).id),
    edit(nightId, draft) {
      const night = findNight(nightId)
      refuse(reportEditProblems(draft, night))
      if (night.state === 'closed') throw new Fault('conflict', 'fault.report-closed')
      reports.putEdits(nightId, Value.Parse(ReportEdits, draft), clock.now())
    },
    close(nightId) {
      const night = findNight(nightId)
      if (nightHours(night).closesAt > clock.now()) throw new Fault('conflict', 'fault.report-early')
      if (night.state !== 'closed') reports.close(nightId, night.state, clock.now())
    },
    reopen(nightId) {
      if (findNight(nightId).state === 'closed') reports.open(nightId)
    },
  }
}

type FactsOf = (night: Night) => Promise<NightFacts>

function seasons({ reports, nights, clock }: ReportNeeds, factsOf: FactsOf): Pick<ReportDesk, 'years' | 'season'> {
  const wasOff = ({ id, state }: Night): boolean =>
    state === 'off' || (state === 'closed' && reports.closing(id)?.stateBefore === 'off')
  const over = (settled: boolean): readonly Night[] =>
    nights
      .all()
      .filter((night) => nightHours(night).closesAt <= clock.now() && !wasOff(night))
      .filter(({ state }) => !settled || state === 'closed')

  return {
    years: (settled) => [...new Set(over(settled).map(yearOf))].sort((a, b) => b - a),
    async season(year, settled) {
      const told = over(settled).filter((night) => yearOf(night) === year)
      const each = told.map(async (night) => ({
        night,
        facts: await factsOf(night),
        edits: reports.edits(night.id) ?? NO_EDITS,
      }))
      return seasonOf(year, await Promise.all(each))
    },
  }
}

/** The row in its order, then those that have left it. */
const stationsOf = ({ nights }: Pick<ReportNeeds, 'nights'>, night: Night): readonly Station[] => [
  ...night.stations,
  ...nights.everyStation(night.id).filter(({ id }) => !night.stations.some((station) => station.id === id)),
]

const yearOf = ({ date }: Night): number => Number(date.slice(0, 4))
const closedAt = (night: Night, closing: NightClosing | undefined): Date | null =>
  night.state === 'closed' ? (closing?.closedAt ?? null) : null

/** Reckons what a night tells in the worker, once for each state of it: of one that is over that is for good. */
function factTeller({ nights, tours, log, reckon, clock, reports }: ReportNeeds): FactsOf {
  const kept = keptAnswers<NightFacts>(KEPT)
  return (night) => {
    const now = clock.now()
    // What came after closing time, a mark of a phone that was away among it, still counts.
    const marks = log.all(night.id)
    const stateBefore = night.state === 'closed' ? reports.closing(night.id)?.stateBefore : undefined
    const asked = stateBefore ? { ...night, state: stateBefore } : night
    const versions = tours.versions(night.id)
    const minute = now < nightHours(night).closesAt ? Math.floor(now.getTime() / 60_000) : 'over'
    const latest = marks.filter(({ happenedAt }) => happenedAt > now).length
    const name = digestOf(JSON.stringify([asked, versions.map(({ id }) => id), marks.at(-1)?.seq, minute, latest]))
    return kept(name, () => {
      const input: ReportInput = {
        night: asked,
        stations: stationsOf({ nights }, night),
        tours: versions.flatMap(({ id }) => tours.find(id) ?? []),
        marks,
        at: now,
      }
      return reckon(input)
    })
  }
}
