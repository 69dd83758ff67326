import { actsUntil } from './fold.ts'
import { eveningSpan, nightHours } from './hours.ts'
import type { Mark } from './mark.ts'
import { payloadOf } from './mark-payload.ts'
import type { Night } from './night.ts'
import { type HeldSpan, heldSpans, type ReportTour } from './report-held.ts'
import { stationNow } from './station-fold.ts'
import type { Stop } from './tour.ts'

/** What a station showed from when to when, as the field's pages said it. */
export interface Showing {
  readonly stationId: string
  readonly targetKey: string
  readonly fromAt: Date
  readonly toAt: Date
  /** Whether somebody at the station said so, or nobody said otherwise. */
  readonly told: 'mark' | 'plan'
  /** The stop of the programme that it was, if it was one. */
  readonly stop: Stop | null
  /** Minutes of it in which nobody could look. */
  readonly troubleMin: number
}

interface CourseInput {
  /** With every station that the night has ever had. */
  readonly night: Night
  readonly tours: readonly ReportTour[]
  readonly marks: readonly Mark[]
  readonly at: Date
}

type Span = Pick<Showing, 'fromAt' | 'toAt'>
type Shown = Omit<Showing, 'told' | 'troubleMin'>
/** `goesOn` is true when the same was on before the programme took over. */
type Part = Shown & { readonly goesOn: boolean }

/**
 * What was shown up to an instant, station after station in its order of time: for each time what the programme that
 * held then and the standing acts gave together. A station that had left shows nothing; a night that was off shows what was said.
 */
export function showingsOf(input: CourseInput): readonly Showing[] {
  const { night, tours, marks, at } = input
  const { fromAt } = eveningSpan(night)
  const endAt = new Date(Math.min(at.getTime(), lastMs(input)))
  if (endAt <= fromAt) return []
  const spans = heldSpans(tours, marks, fromAt, endAt)
  const acts = actsUntil(marks, endAt)
  return night.stations.flatMap(({ id }) => {
    const own = acts.filter(({ stationId }) => stationId === id)
    const shown = joined(spans.flatMap((span) => shownIn(night, span, id, own)))
    return shown
      .flatMap((showing) => without(showing, gaps(own, endAt, isLeaving, isComing)))
      .map((showing) =>
        told(
          showing,
          own,
          gaps(own, endAt, isTrouble, ({ kind }) => kind === 'showing'),
        ),
      )
      .filter((showing) => night.state !== 'off' || showing.told === 'mark')
  })
}

/** The closing hour, or the last act that was later. */
const lastMs = ({ night, marks, at }: CourseInput): number =>
  Math.max(nightHours(night).closesAt.getTime(), ...actsUntil(marks, at).map(({ happenedAt }) => happenedAt.getTime()))

function shownIn(night: Night, { tour, fromAt, untilAt }: HeldSpan, stationId: string, own: readonly Mark[]): Part[] {
  const stops = (tour?.stops ?? []).filter((stop) => stop.stationId === stationId)
  const acts = own.filter(({ happenedAt }) => happenedAt <= untilAt)
  const ended = stationNow(stationId, stops, acts, untilAt).shown
  const all = [...ended, ...brokenOff(stationId, stops, acts)].sort((a, b) => a.fromAt.getTime() - b.fromAt.getTime())
  return all.flatMap((shown) => {
    const whole = { fromAt: shown.fromAt, toAt: shown.toAt ?? openEnd(night, own, shown.fromAt, untilAt) }
    const part = overlap(whole, { fromAt, toAt: untilAt })
    if (part === null) return []
    const stop = stopOf(tour, stationId, shown.targetKey, part)
    return [{ stationId, targetKey: shown.targetKey, ...part, stop, goesOn: shown.fromAt < fromAt }]
  })
}

/** What was skipped while it was on and somebody had said that it was: people saw it until then. What was only planned was not shown. */
function brokenOff(stationId: string, stops: readonly Stop[], acts: readonly Mark[]) {
  return acts.flatMap(({ kind, payload, happenedAt: toAt }, i) => {
    if (kind !== 'skipped') return []
    const before = acts.slice(0, i)
    const { showing } = stationNow(stationId, stops, before, toAt)
    if (showing === null || showing.targetKey !== payload.targetKey) return []
    const { targetKey, sinceAt: fromAt } = showing
    return isSaid({ targetKey, fromAt, toAt }, before) ? [{ targetKey, fromAt, toAt }] : []
  })
}

/** What nobody has ended lasts to the closing hour, or to the last act there that came later. */
function openEnd(night: Night, own: readonly Mark[], sinceAt: Date, untilAt: Date): Date {
  const acts = own.filter(({ happenedAt }) => happenedAt > sinceAt).map(({ happenedAt }) => happenedAt.getTime())
  return new Date(Math.min(untilAt.getTime(), Math.max(nightHours(night).closesAt.getTime(), ...acts)))
}

function overlap(a: Span, b: Span): Span | null {
  const fromMs = Math.max(a.fromAt.getTime(), b.fromAt.getTime())
  const toMs = Math.min(a.toAt.getTime(), b.toAt.getTime())
  return fromMs < toMs ? { fromAt: new Date(fromMs), toAt: new Date(toMs) } : null
}

export const minutesOf = ({ fromAt, toAt }: Span): number => (toAt.getTime() - fromAt.getTime()) / 60_000

/** The stop of the same thing there that shares the most time with it. */
function stopOf(tour: ReportTour | null, stationId: string, targetKey: string, part: Span): Stop | null {
  const shared = (stop: Stop): number => {
    const both = overlap({ fromAt: stop.startsAt, toAt: stop.endsAt }, part)
    return both === null ? 0 : minutesOf(both)
  }
  const same = (tour?.stops ?? []).filter((stop) => stop.stationId === stationId && stop.targetKey === targetKey)
  return same.filter((stop) => shared(stop) > 0).sort((a, b) => shared(b) - shared(a))[0] ?? null
}

/** A thing that goes on while one programme takes over from another is shown once. */
function joined(parts: readonly Part[]): readonly Shown[] {
  const whole: Shown[] = []
  for (const { goesOn, ...part } of parts) {
    const before = whole.at(-1)
    const isSame = before?.targetKey === part.targetKey && before.toAt.getTime() === part.fromAt.getTime()
    if (before && isSame && goesOn) whole[whole.length - 1] = { ...before, toAt: part.toAt }
    else whole.push(part)
  }
  return whole
}

const isStation = (mark: Mark, is: 'out' | 'in'): boolean => payloadOf('station', mark)?.is === is
const isLeaving = (mark: Mark): boolean => isStation(mark, 'out')
const isComing = (mark: Mark): boolean => isStation(mark, 'in')
const isTrouble = ({ kind }: Mark): boolean => kind === 'trouble'

/** The times from an act of one sort to the next of another. */
function gaps(
  own: readonly Mark[],
  endAt: Date,
  begins: (mark: Mark) => boolean,
  ends: (mark: Mark) => boolean,
): readonly Span[] {
  const found: Span[] = []
  let fromAt: Date | null = null
  for (const mark of own) {
    if (begins(mark)) fromAt ??= mark.happenedAt
    else if (fromAt !== null && ends(mark)) {
      found.push({ fromAt, toAt: mark.happenedAt })
      fromAt = null
    }
  }
  return fromAt === null ? found : [...found, { fromAt, toAt: endAt }]
}

/** What is left of a showing without some times. */
function without(showing: Shown, away: readonly Span[]): readonly Shown[] {
  return away.reduce<readonly Shown[]>(
    (parts, gap) =>
      parts.flatMap((part) => {
        const before = overlap(part, { fromAt: part.fromAt, toAt: gap.fromAt })
        const after = overlap(part, { fromAt: gap.toAt, toAt: part.toAt })
        return [before, after].flatMap((span) => (span === null ? [] : [{ ...part, ...span }]))
      }),
    [showing],
  )
}

const ABOUT_A_TARGET: readonly Mark['kind'][] = ['showing', 'shown', 'seen']

const isSaid = ({ targetKey, fromAt, toAt }: Span & Pick<Showing, 'targetKey'>, acts: readonly Mark[]): boolean =>
  acts.some(
    ({ kind, payload, happenedAt }) =>
      ABOUT_A_TARGET.includes(kind) && payload.targetKey === targetKey && fromAt <= happenedAt && happenedAt <= toAt,
  )

function told(showing: Shown, own: readonly Mark[], trouble: readonly Span[]): Showing {
  const lost = trouble.flatMap((span) => overlap(showing, span) ?? [])
  return {
    ...showing,
    told: isSaid(showing, own) ? 'mark' : 'plan',
    troubleMin: lost.reduce((sum, span) => sum + minutesOf(span), 0),
  }
}
