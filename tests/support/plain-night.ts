import type { FieldState, StationNow } from '../../server/tours/field.ts'
import type { MarkKind } from '../../server/tours/mark.ts'
import type { Stop } from '../../server/tours/tour.ts'

/*
 * The state of a night as somebody with paper and pencil would keep it: a list of what has come in, and for each
 * question every station played from the first minute on. Written apart from the fold of the service, to be compared
 * with it.
 */

/** An act as it came in; `atMs` is when it happened. */
export interface PlainAct {
  readonly key: string
  readonly kind: MarkKind
  readonly stationId: string | null
  readonly payload: Readonly<Record<string, unknown>>
  readonly atMs: number
}

/** A phone in the field, or the host's, which alone may take a station out. */
export type PlainRole = 'operator' | 'host-phone'

type Plan = readonly Pick<Stop, 'stationId' | 'targetKey' | 'aim' | 'startsAt' | 'endsAt'>[]
interface On {
  targetKey: unknown
  aim: unknown
  sinceMs: number
  isPlanned: boolean
}
interface Sheet {
  on: On | null
  shown: { targetKey: unknown; fromMs: number; toMs: number }[]
  struck: { targetKey: unknown; why: unknown; stop: Plan[number] | null }[]
  trouble: unknown
}

export function plainNight(stationIds: readonly string[], plan: Plan) {
  const list: PlainAct[] = []
  const named = (key: unknown) => list.find((act) => act.key === key)

  /** Nobody whose undo stands has named it. */
  const stands = (key: string): boolean =>
    !list.some((undo) => undo.kind === 'undo' && undo.payload.markKey === key && stands(undo.key))

  function first(act: PlainAct): PlainAct | undefined {
    const before = act.kind === 'undo' ? named(act.payload.markKey) : act
    return before === undefined || before === act ? before : first(before)
  }

  function isFine(act: PlainAct, role: PlainRole): boolean {
    if (act.stationId !== null && !stationIds.includes(act.stationId)) return false
    return (role === 'host-phone' || first(act)?.kind !== 'station') && first(act) !== undefined
  }

  const standingUntil = (atMs: number): readonly PlainAct[] =>
    list.filter((act) => act.kind !== 'undo' && act.atMs <= atMs && stands(act.key))

  function people(who: 'adults' | 'children', atMs: number): number {
    let sum = 0
    for (const act of byTime(standingUntil(atMs)))
      if (act.kind === 'counted') sum = Math.max(0, sum + Number(act.payload[who]))
    return sum
  }

  return {
    keys: (): readonly string[] => list.map(({ key }) => key),
    /** Takes an act in; false when it is refused. */
    comes(act: PlainAct, role: PlainRole): boolean {
      const before = named(act.key)
      if (before) return isSameAct(before, act)
      if (isFine(act, role)) list.push(act)
      return named(act.key) !== undefined
    },
    /** What the laptop should tell of the field at an instant, but for the number of its newest mark. */
    field(atMs: number): Omit<FieldState, 'seq'> {
      const acts = standingUntil(atMs)
      return {
        at: new Date(atMs),
        stations: stationIds.map((stationId) =>
          stationOf(
            stationId,
            plan.filter((stop) => stop.stationId === stationId),
            acts.filter((act) => act.stationId === stationId),
            atMs,
          ),
        ),
        adultsIn: people('adults', atMs),
        childrenIn: people('children', atMs),
      }
    },
  }
}

const isSameAct = (a: PlainAct, b: PlainAct): boolean =>
  a.kind === b.kind && a.stationId === b.stationId && JSON.stringify(a.payload) === JSON.stringify(b.payload)

/** Those of the same moment stay in the order in which they came in. */
const byTime = (acts: readonly PlainAct[]): readonly PlainAct[] => [...acts].sort((a, b) => a.atMs - b.atMs)

function stationOf(stationId: string, plan: Plan, acts: readonly PlainAct[], atMs: number): StationNow {
  const now = sheetAt(plan, acts, atMs)
  const later = edgesOf(plan)
    .filter((ms) => ms > atMs)
    .map((ms) => ({ ms, on: sheetAt(plan, acts, ms).on }))
  const changes = later.filter(({ on }, i) => on?.sinceMs !== (i === 0 ? now.on : later[i - 1]?.on)?.sinceMs)
  const begins = changes.find(({ on }) => on !== null)?.on ?? null
  const ends = now.on === null ? undefined : changes[0]
  return {
    stationId,
    showing: now.on && { ...said(now.on), sinceAt: new Date(now.on.sinceMs), isPlanned: now.on.isPlanned },
    untilAt: ends ? new Date(ends.ms) : null,
    next: begins && { ...said(begins), atAt: new Date(begins.sinceMs) },
    shown: [
      ...now.shown.map(({ targetKey, fromMs, toMs }) => spell(targetKey, fromMs, new Date(toMs))),
      ...(now.on ? [spell(now.on.targetKey, now.on.sinceMs, null)] : []),
    ],
    skipped: now.struck.map(({ targetKey, why }) => ({ targetKey: String(targetKey), why: String(why) })),
    trouble: now.trouble === null ? null : String(now.trouble),
    lastMarkKey: acts.at(-1)?.key ?? null,
  }
}

const said = ({ targetKey, aim }: On) =>
  ({ targetKey: String(targetKey), aim: aim === 'close' ? 'close' : 'whole' }) as const
const spell = (targetKey: unknown, fromMs: number, toAt: Date | null) => ({
  targetKey: String(targetKey),
  fromAt: new Date(fromMs),
  toAt,
})
const edgesOf = (plan: Plan): readonly number[] =>
  [...new Set(plan.flatMap(({ startsAt, endsAt }) => [startsAt.getTime(), endsAt.getTime()]))].sort((a, b) => a - b)

/** A station played until an instant, moment by moment: first what ends by the plan, then what begins by it, then acts. */
function sheetAt(plan: Plan, acts: readonly PlainAct[], untilMs: number): Sheet {
  const sheet: Sheet = { on: null, shown: [], struck: [], trouble: null }
  const moments = new Set([...edgesOf(plan), ...acts.map((act) => act.atMs)])
  for (const ms of [...moments].filter((one) => one <= untilMs).sort((a, b) => a - b)) {
    for (const stop of plan)
      if (stop.endsAt.getTime() === ms && isOn(sheet, stop) && sheet.on?.isPlanned) takeOff(sheet, ms)
    for (const stop of plan) if (stop.startsAt.getTime() === ms) beginByPlan(sheet, stop, ms)
    for (const act of acts) if (act.atMs === ms) doAct(sheet, plan, act)
  }
  return sheet
}

const isOn = ({ on }: Sheet, what: { readonly targetKey?: unknown; readonly aim?: unknown }): boolean =>
  on !== null && on.targetKey === what.targetKey && on.aim === what.aim

function takeOff(sheet: Sheet, ms: number): void {
  if (sheet.on) sheet.shown.push({ targetKey: sheet.on.targetKey, fromMs: sheet.on.sinceMs, toMs: ms })
  sheet.on = null
}

function putOn(sheet: Sheet, on: On): void {
  takeOff(sheet, on.sinceMs)
  sheet.on = on
}

function beginByPlan(sheet: Sheet, stop: Plan[number], ms: number): void {
  if (isOn(sheet, stop) && sheet.on) sheet.on.isPlanned = true
  else if (!sheet.struck.some((strike) => strike.stop === stop))
    putOn(sheet, { targetKey: stop.targetKey, aim: stop.aim, sinceMs: ms, isPlanned: true })
}

function doAct(sheet: Sheet, plan: Plan, { kind, payload, atMs }: PlainAct): void {
  const { targetKey, aim } = payload
  if (kind === 'trouble') sheet.trouble = payload.what
  if (kind === 'shown' && sheet.on?.targetKey === targetKey) takeOff(sheet, atMs)
  if (kind === 'skipped') {
    sheet.struck.push({ targetKey, why: payload.why, stop: stopMeant(sheet, plan, targetKey, atMs) })
    if (sheet.on?.targetKey === targetKey) sheet.on = null
  }
  if (kind === 'showing') {
    sheet.trouble = null
    sheet.struck = sheet.struck.filter(
      (strike) => strike.targetKey !== targetKey || (strike.stop && strike.stop.endsAt.getTime() <= atMs),
    )
    const isPlanned = plan.some((stop) => runsAt(stop, atMs) && stop.targetKey === targetKey && stop.aim === aim)
    if (!isOn(sheet, payload)) putOn(sheet, { targetKey, aim, sinceMs: atMs, isPlanned })
  }
}

const runsAt = ({ startsAt, endsAt }: Plan[number], ms: number): boolean =>
  startsAt.getTime() <= ms && ms < endsAt.getTime()

/** A skip of what is not on means its first stop that is not over; of what is on, the stop it stands on or was begun early for. */
function stopMeant(sheet: Sheet, plan: Plan, targetKey: unknown, ms: number): Plan[number] | null {
  if (sheet.on?.targetKey !== targetKey)
    return plan.find((stop) => stop.targetKey === targetKey && stop.endsAt.getTime() > ms) ?? null
  const running = plan.find((stop) => runsAt(stop, ms))
  const comes = plan.find(
    (stop) => stop.startsAt.getTime() > ms && !sheet.struck.some((strike) => strike.stop === stop),
  )
  return [running, comes].find((stop) => stop !== undefined && isOn(sheet, stop)) ?? null
}
