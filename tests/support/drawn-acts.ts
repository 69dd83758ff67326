import type { MarkKind } from '../../server/tours/mark.ts'
import type { Stop } from '../../server/tours/tour.ts'
import type { PlainAct, PlainRole } from './plain-night.ts'

/** Acts that come in together from one phone, at an instant of the laptop's clock. */
export interface Sending {
  readonly role: PlainRole
  readonly clockMs: number
  readonly acts: readonly PlainAct[]
}

/** A night with a programme or without, and all that phones send on it. */
export interface DrawnNight {
  readonly id: string
  readonly stationIds: readonly string[]
  readonly stops: readonly Stop[]
  readonly sendings: readonly Sending[]
  readonly undoKeys: ReadonlySet<string>
  /** When the state is asked for once more in the end. */
  readonly askedMs: readonly number[]
}

interface Arrival {
  readonly act: PlainAct
  readonly phone: number
  readonly minute: number
}

export const STARTS_MS = Date.parse('2026-12-17T17:00:00Z')
const MINUTES = 150
const MOST_STOPS = 5
const PHONES: readonly PlainRole[] = ['operator', 'operator', 'host-phone']
const TARGETS = ['moon', 'm57', 'm35']
const AIMS = ['whole', 'close'] as const
const KINDS: readonly MarkKind[] = [
  ...(['showing', 'showing', 'shown', 'skipped', 'skipped', 'trouble', 'counted', 'seen', 'station'] as const),
  ...(['undo', 'undo', 'undo', 'undo'] as const),
]
const HALF_A_QUARTER = [15, 30, 45]
/** By how much the laptop's clock is put back once in some nights. */
const PUT_BACK_MIN = 20

const msAt = (minute: number): number => STARTS_MS + minute * 60_000

/** A night and its acts by chance: all instants are whole minutes, so that many fall together. */
export function drawnNight(random: () => number, id: string): DrawnNight {
  const below = (count: number): number => Math.floor(random() * count)
  const one = <Of>(of: readonly Of[]): Of => of[below(of.length)] as Of
  const stationIds = [`${id}-a`, `${id}-b`]
  const stops = random() < 0.25 ? [] : stationIds.flatMap(plannedAt)
  const acts: PlainAct[] = []
  const arrivals: Arrival[] = []
  for (let i = 3 + below(14); i > 0; i--) arrivals.push(...arrivalsOf(drawnAct(), below(PHONES.length)))
  const putBackAt = random() < 0.2 ? below(MINUTES) : Number.POSITIVE_INFINITY
  return {
    id,
    stationIds,
    stops,
    sendings: gathered(arrivals, putBackAt),
    undoKeys: new Set(acts.filter(({ kind }) => kind === 'undo').map(({ key }) => key)),
    askedMs: [below(MINUTES), below(2 * MINUTES)].map(msAt),
  }

  function plannedAt(stationId: string): Stop[] {
    let minute = 0
    return Array.from({ length: below(MOST_STOPS) }, () => {
      const startsAt = new Date(msAt(minute + (random() < 0.3 ? 15 : 0)))
      const endsAt = new Date(startsAt.getTime() + one(HALF_A_QUARTER) * 60_000)
      minute = (endsAt.getTime() - STARTS_MS) / 60_000
      const rest = { setups: [], leaveBy: null, chance: 1, view: 1, looks: 10, reasons: [] }
      return { stationId, targetKey: one(TARGETS), aim: one(AIMS), startsAt, endsAt, ...rest }
    })
  }

  /** Often an act about the same thing at the same station soon after another. */
  function drawnAct(): PlainAct {
    const kind = acts.length === 0 ? 'showing' : one(KINDS)
    const before = random() < 0.4 ? acts.at(-1) : undefined
    const own = payloadOf(kind, before?.payload.targetKey)
    const about = kind === 'undo' ? acts.find(({ key }) => key === own.markKey) : before
    const atMs = about ? about.atMs + below(20) * 60_000 : msAt(below(MINUTES))
    const elsewhere = random() < 0.03 ? 'of-another-night' : one(stationIds)
    const stationId = kind === 'counted' ? null : (before?.stationId ?? elsewhere)
    const act = { key: `${id}-act-${acts.length}`, kind, stationId, payload: own, atMs }
    acts.push(act)
    return act
  }

  /** An undo names an act of whoever, an undo too; now and then one that nobody has made. */
  function payloadOf(kind: MarkKind, sameKey?: unknown): PlainAct['payload'] {
    const targetKey = sameKey ?? one(TARGETS)
    if (kind === 'showing') return { targetKey, aim: one(AIMS) }
    if (kind === 'shown') return { targetKey }
    if (kind === 'skipped') return { targetKey, why: one(['cloud', 'wish']) }
    if (kind === 'seen') return { targetKey, who: one(['they', 'half', 'not']) }
    if (kind === 'trouble') return { what: one(['help', 'cloud']) }
    if (kind === 'counted') return { adults: below(9) - 3, children: below(9) - 3 }
    if (kind === 'station') return { is: one(['in', 'out']) }
    return { markKey: random() < 0.05 ? 'nobody-has-made-it' : one(acts).key }
  }

  /** Once soon or late, now and then again, and rarely another act under the same key. */
  function arrivalsOf(act: PlainAct, phone: number): Arrival[] {
    const made = (act.atMs - STARTS_MS) / 60_000
    const late = () => made + (random() < 0.5 ? 0 : below(90))
    const times = [late(), ...(random() < 0.4 ? [late()] : []), ...(random() < 0.2 ? [late(), late()] : [])]
    const other = random() < 0.05 ? [{ act: { ...act, payload: payloadOf(act.kind) }, phone, minute: late() }] : []
    return [...times.map((minute) => ({ act, phone, minute })), ...other]
  }

  /** What one phone sends in the same minutes goes together, in no order. */
  function gathered(all: readonly Arrival[], putBackAt: number): Sending[] {
    const places = all.map((arrival) => ({ ...arrival, slot: arrival.minute - (arrival.minute % 5), chance: random() }))
    places.sort((a, b) => a.slot - b.slot || a.phone - b.phone || a.chance - b.chance)
    const groups = new Map<string, Arrival[]>()
    for (const place of places) {
      const name = `${place.slot} ${place.phone}`
      groups.set(name, [...(groups.get(name) ?? []), place])
    }
    return [...groups.values()].map((group) => {
      const minute = Math.max(...group.map((arrival) => arrival.minute))
      const shiftMs = minute >= putBackAt ? PUT_BACK_MIN * 60_000 : 0
      return {
        role: PHONES[group[0]?.phone ?? 0] ?? 'operator',
        clockMs: msAt(minute) - shiftMs,
        acts: group.map(({ act }) => ({ ...act, atMs: act.atMs - shiftMs })),
      }
    })
  }
}
