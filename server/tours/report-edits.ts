import { type Static, Type } from 'typebox'
import { Value } from 'typebox/value'
import type { Problem } from '../errors.ts'
import { instantOf } from './hours.ts'
import { type Night, WallClock } from './night.ts'
import type { NightFacts } from './report.ts'
import { schemaProblems } from './schema-problems.ts'
import { countOf, type Heads } from './visitors.ts'

const count = (maximum: number) => Type.Optional(Type.Integer({ minimum: 0, maximum }))
const words = (maxLength: number) => Type.String({ maxLength })

/** What the host writes into a report. A number stands beside the reckoned one, never in its place; without it that counts. */
export const ReportEdits = Type.Object({
  adults: count(50_000),
  children: count(50_000),
  peak: count(50_000),
  looks: count(500_000),
  ranFrom: Type.Optional(WallClock),
  ranTo: Type.Optional(WallClock),
  setUpMin: count(1440),
  extraHelpers: count(200),
  sky: words(600),
  weather: words(600),
  helpers: words(600),
  improve: words(2000),
})
export type ReportEdits = Static<typeof ReportEdits>

export const NO_EDITS: ReportEdits = { sky: '', weather: '', helpers: '', improve: '' }
export const EDIT_COUNTS = ['adults', 'children', 'peak', 'looks', 'setUpMin', 'extraHelpers'] as const
export const EDIT_CLOCKS = ['ranFrom', 'ranTo'] as const
export const EDIT_WORDS = ['sky', 'weather', 'helpers', 'improve'] as const

const LONGEST_MS = 12 * 3_600_000

/** What is wrong with edits of a night as typed in; [] when they can be kept. */
export function reportEditProblems(draft: unknown, night: Night): Problem[] {
  if (Value.Check(ReportEdits, draft)) return orderProblems(draft, night)
  return schemaProblems(Value.Errors(ReportEdits, draft), ReportEdits).map((problem) =>
    EDIT_CLOCKS.some((name) => name === problem.field) ? { field: problem.field, key: 'problem.go-clock' } : problem,
  )
}

function orderProblems({ ranFrom, ranTo }: ReportEdits, night: Night): Problem[] {
  if (ranFrom === undefined || ranTo === undefined) return []
  const lastedMs = instantOf(night, ranTo).getTime() - instantOf(night, ranFrom).getTime()
  return lastedMs > 0 && lastedMs <= LONGEST_MS ? [] : [{ field: 'ranTo', key: 'problem.report-order' }]
}

/** An hour to set up and half an hour to take down; common practice, no source. */
export const USUAL_SET_UP_MIN = 90

/** What the helpers gave, in whole minutes: so the sum is exact. */
interface VolunteerTime {
  readonly stations: number
  readonly extraHelpers: number
  /** As run, or as the host corrected it. */
  readonly openMin: number
  readonly setUpMin: number
  /** (stations + others) x (open + set-up), or 0. */
  readonly totalMin: number
}

/** The hours that count: the host's, else as run; null where nothing was shown. */
export function hoursRun(
  night: Night,
  { ran }: Pick<NightFacts, 'ran'>,
  { ranFrom, ranTo }: ReportEdits,
): NightFacts['ran'] {
  const fromAt = ranFrom === undefined ? ran?.fromAt : instantOf(night, ranFrom)
  const toAt = ranTo === undefined ? ran?.toAt : instantOf(night, ranTo)
  return fromAt && toAt && fromAt <= toAt ? { fromAt, toAt } : ran
}

/** One person at each station, and whoever else the host counts; none where nothing was shown and the host says no hours. */
export function volunteerTime(night: Night, facts: Pick<NightFacts, 'ran'>, edits: ReportEdits): VolunteerTime {
  const run = hoursRun(night, facts, edits)
  const openMin = run === null ? 0 : Math.round((run.toAt.getTime() - run.fromAt.getTime()) / 60_000)
  const { setUpMin = USUAL_SET_UP_MIN, extraHelpers = 0 } = edits
  const stations = night.stations.length
  return {
    stations,
    extraHelpers,
    openMin,
    setUpMin,
    totalMin: run === null ? 0 : (stations + extraHelpers) * (openMin + setUpMin),
  }
}

/** The people that came: as the host says it, else as counted; null while adults or children are not known. */
export function cameOf({ people }: Pick<NightFacts, 'people'>, { adults, children }: ReportEdits): Heads | null {
  const isKnown = people.isCounted || (adults !== undefined && children !== undefined)
  return isKnown ? { adults: adults ?? people.came.adults, children: children ?? people.came.children } : null
}

/** What a report still lacks, the heaviest first. */
const LACKS = ['open', 'acts', 'gate', 'timed', 'seen', 'improve'] as const

export function lacksOf(facts: NightFacts, edits: ReportEdits): readonly (typeof LACKS)[number][] {
  const has: Readonly<Record<(typeof LACKS)[number], boolean>> = {
    open: facts.isOver,
    acts: facts.showings.some(({ told }) => told === 'mark'),
    gate: cameOf(facts, edits) !== null,
    timed: facts.marks.timed > 0,
    seen: facts.seen.length > 0,
    improve: edits.improve !== '',
  }
  return LACKS.filter((lack) => !has[lack])
}

export const visitorsOf = (came: Heads | null): number | null => came && countOf(came)
