import type { Stop } from './tour.ts'

/** A stretch of time at one station: what was to be shown then and what is now, null where nothing is. */
export interface Span {
  readonly fromAt: Date
  readonly toAt: Date
  readonly before: Stop | null
  readonly after: Stop | null
  /** True when something else is shown than before. */
  readonly isChanged: boolean
}

/** What becomes of a stop: `gone` stands in the old plan alone, `new` in the new one alone. */
type Fate = 'stays' | 'longer' | 'shorter' | 'sooner' | 'later' | 'new' | 'gone'

export interface FatedStop {
  readonly stop: Stop
  /** Its start, or the instant of comparing when it has begun. */
  readonly fromAt: Date
  readonly fate: Fate
}

/** One station from an instant on, by two plans. */
export interface StationChanges {
  readonly stationId: string
  /** All stretches in which either plan shows something, those that stay included. */
  readonly spans: readonly Span[]
  readonly before: readonly FatedStop[]
  readonly after: readonly FatedStop[]
}

type Ahead = Pick<FatedStop, 'stop' | 'fromAt'>

/** What one plan changes of another from an instant on, station by station; stations at which nothing is ahead in either are left out. */
export function changesOf(before: readonly Stop[], after: readonly Stop[], at: Date): readonly StationChanges[] {
  const [old, next] = [ahead(before, at), ahead(after, at)]
  const ids = [...new Set([...old, ...next].map(({ stop }) => stop.stationId))]
  return ids.map((stationId) => stationChanges(stationId, ofStation(old, stationId), ofStation(next, stationId)))
}

/** How often a station turns to something else than it would have, or to nothing. */
export const countOfChanges = (changes: readonly StationChanges[]): number =>
  changes.flatMap(({ spans }) => spans.filter((span, i) => isTurn(span, spans[i - 1]))).length

/** When the first station turns to something else; null when none does. */
export function firstChangeAt(changes: readonly StationChanges[]): Date | null {
  const starts = changes.flatMap(({ spans }) => spans.filter(({ isChanged }) => isChanged).map(({ fromAt }) => fromAt))
  return starts.reduce<Date | null>((first, start) => (first === null || start < first ? start : first), null)
}

/** A changed stretch is no turn of its own when the one before it has turned to the same already. */
function isTurn(span: Span, last: Span | undefined): boolean {
  const goesOn = last?.isChanged && +last.toAt === +span.fromAt && isSame(last.after, span.after)
  return span.isChanged && !goesOn
}

const ahead = (stops: readonly Stop[], at: Date): readonly Ahead[] =>
  stops
    .filter(({ endsAt }) => endsAt > at)
    .map((stop) => ({ stop, fromAt: stop.startsAt < at ? at : stop.startsAt }))
    .sort((a, b) => a.fromAt.getTime() - b.fromAt.getTime())

const ofStation = (stops: readonly Ahead[], stationId: string): readonly Ahead[] =>
  stops.filter(({ stop }) => stop.stationId === stationId)

function stationChanges(stationId: string, old: readonly Ahead[], next: readonly Ahead[]): StationChanges {
  const pairs = pairsOf(old, next)
  const fated = (own: Ahead, pair: Pair | undefined, alone: Fate): FatedStop => ({
    ...own,
    fate: pair ? fateOf(pair) : alone,
  })
  return {
    stationId,
    spans: spansOf(old, next),
    before: old.map((it) =>
      fated(
        it,
        pairs.find(({ was }) => was === it),
        'gone',
      ),
    ),
    after: next.map((it) =>
      fated(
        it,
        pairs.find(({ is }) => is === it),
        'new',
      ),
    ),
  }
}

interface Pair {
  readonly was: Ahead
  readonly is: Ahead
}

/** Each stop that goes on, with what becomes of it: the same thing for a time that overlaps. */
function pairsOf(old: readonly Ahead[], next: readonly Ahead[]): readonly Pair[] {
  const pairs: Pair[] = []
  for (const is of next) {
    const was = old.find((it) => overlap(it, is) && !pairs.some((pair) => pair.was === it))
    if (was) pairs.push({ was, is })
  }
  return pairs
}

const overlap = (a: Ahead, b: Ahead): boolean =>
  isSame(a.stop, b.stop) && a.fromAt < b.stop.endsAt && b.fromAt < a.stop.endsAt

function fateOf({ was, is }: Pair): Fate {
  if (is.fromAt < was.fromAt) return 'sooner'
  if (is.fromAt > was.fromAt) return 'later'
  if (is.stop.endsAt > was.stop.endsAt) return 'longer'
  return is.stop.endsAt < was.stop.endsAt ? 'shorter' : 'stays'
}

function spansOf(old: readonly Ahead[], next: readonly Ahead[]): readonly Span[] {
  const instants = [...old, ...next].flatMap(({ fromAt, stop }) => [fromAt.getTime(), stop.endsAt.getTime()])
  const borders = [...new Set(instants)].sort((a, b) => a - b)
  return borders.slice(1).flatMap((to, i): Span[] => {
    const [fromAt, toAt] = [new Date(borders[i] ?? to), new Date(to)]
    const [before, after] = [onAt(old, fromAt), onAt(next, fromAt)]
    return before || after ? [{ fromAt, toAt, before, after, isChanged: !isSame(before, after) }] : []
  })
}

const onAt = (stops: readonly Ahead[], at: Date): Stop | null =>
  stops.find(({ stop, fromAt }) => fromAt <= at && at < stop.endsAt)?.stop ?? null

const isSame = (a: Stop | null, b: Stop | null): boolean =>
  a === null || b === null ? a === b : a.targetKey === b.targetKey && a.aim === b.aim
