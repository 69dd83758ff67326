import { seededRandom } from '../../server/sky/random.ts'
import { foldField } from '../../server/tours/fold.ts'
import type { Mark } from '../../server/tours/mark.ts'
import type { Night } from '../../server/tours/night.ts'
import type { Stop } from '../../server/tours/tour.ts'
import { faultyAir } from './phones-air.ts'
import { openPage } from './phones-pages.ts'
import { TARGETS, type Tap, tapsOf } from './phones-script.ts'
import type { PhoneService } from './phones-service.ts'
import { phoneShelf } from './phones-shelf.ts'

export const PHONES = 40
const SECOND_MS = 1_000
const MINUTE_MS = 60_000
/** So many taps are the last of their page, which ends right then or while they are on their way. */
const CRASH_SHARE = 0.04
/** Every fifth phone has the page open twice; every third is out of reach for a minute. */
const TWICE_OPEN_EVERY = 5
const AWAY_EVERY = 3

export interface Played {
  readonly script: readonly Tap[]
  /** The names of the taps that the laptop has, in its order. */
  readonly kept: readonly string[]
  /** The names of the taps that the phones list as refused. */
  readonly refused: readonly string[]
  /** How many taps still wait in a phone. */
  readonly waiting: number
  readonly requests: number
  readonly faults: Readonly<Record<string, number>>
  readonly crashes: number
  /** What the row shows and has shown at the end, in words that two nights have in common. */
  readonly state: string
}

/** Plays an evening of taps by forty phones through air in which so large a part of the requests goes wrong. */
export async function playEvening(service: PhoneService, seed: number, taps: number, share: number): Promise<Played> {
  const night = service.newNight()
  const script = tapsOf(seed, taps, PHONES, night.stations.length)
  const lastMs = script.at(-1)?.atMs ?? 0
  const random = seededRandom(seed + 1_000_000)
  const events = schedule()
  const underWay = new Set<Promise<void>>()
  const post = Array.from({ length: PHONES }, (_, phone) => service.join(night, phone))
  const awayFromMs = post.map((_, phone) => (phone % AWAY_EVERY === 0 ? random() * lastMs : Number.POSITIVE_INFINITY))
  const shelves = post.map(() => phoneShelf())
  let nowMs = 0
  let crashes = 0

  const air = faultyAir({
    random,
    share,
    isAway(phone) {
      const sinceMs = nowMs - (awayFromMs[phone] ?? 0)
      return share > 0 && sinceMs >= 0 && sinceMs < MINUTE_MS
    },
    deliver: (phone, body) => post[phone]?.(body) ?? Promise.reject(new Error('No such phone')),
  })
  // In whole seconds, so that many phones send at the same moment.
  const later = (ms: number, run: () => void) => events.add(Math.ceil((nowMs + ms) / SECOND_MS) * SECOND_MS, run)
  const begun = (sending: Promise<void>): void => {
    const ended = sending.finally(() => underWay.delete(ended))
    underWay.add(ended)
  }
  const opened = (phone: number) => {
    const shelf = shelves[phone] ?? phoneShelf()
    return openPage({ nightId: night.id, phone, shelf, air, random, nowMs: () => nowMs, later, begun })
  }
  const pages = shelves.map((_, phone) =>
    Array.from({ length: phone % TWICE_OPEN_EVERY === 0 ? 2 : 1 }, () => opened(phone)),
  )
  const keyOf = (name: string): string => `${night.id}-${name}`

  function act({ name, phone, kind, station, payload, undoes }: Tap): void {
    const own = pages[phone] ?? []
    const place = Math.floor(random() * own.length)
    const page = own[place] ?? opened(phone)
    const stationId = station === null ? null : (night.stations[station]?.id ?? null)
    const carried = undoes === null ? payload : { markKey: keyOf(undoes) }
    page.add({ key: keyOf(name), kind, stationId, payload: carried, doneAtMs: nowMs, text: name })
    const [ends, isOnItsWay] = [share > 0 && random() < CRASH_SHARE, random() < 0.5]
    if (!ends || isOnItsWay) later(0, page.deliver)
    if (ends) later(0, () => end(phone, place))
  }

  function end(phone: number, place: number): void {
    const own = pages[phone] ?? []
    own[place]?.crash()
    const next = opened(phone)
    own[place] = next
    crashes++
    later(SECOND_MS, next.deliver)
  }

  for (const tap of script) events.add(tap.atMs, () => act(tap))
  for (let due = events.next(); due !== null; due = events.next()) {
    nowMs = due.atMs
    service.clock.moveTo(service.instant(nowMs).toISOString())
    for (const run of due.runs) run()
    while (underWay.size > 0) {
      await air.carryAll()
      await Promise.race([...underWay, new Promise((done) => setImmediate(done))])
    }
  }
  await air.bringRest()

  const marks = service.desk.marks.since(night.id, 0)
  const first = pages.flatMap(([page]) => page ?? [])
  const { requests, ...faults } = air.counts
  return {
    script,
    kept: marks.map(({ key }) => key.slice(night.id.length + 1)),
    refused: first.flatMap((page) => page.refused()).sort(),
    waiting: first.reduce((sum, page) => sum + page.count(), 0),
    requests,
    faults,
    crashes,
    state: stateOf(night, marks, service.instant(0), service.instant(lastMs + MINUTE_MS)),
  }
}

/** What is to be done by the evening's time, which stands still while it is done. */
function schedule() {
  const moments = new Map<number, Set<() => void>>()
  return {
    add(atMs: number, run: () => void): () => void {
      const runs = moments.get(atMs) ?? new Set()
      const once = () => run()
      moments.set(atMs, runs.add(once))
      return () => void runs.delete(once)
    },
    /** Takes out the next moment. */
    next(): { readonly atMs: number; readonly runs: Iterable<() => void> } | null {
      const atMs = Math.min(...moments.keys())
      const runs = moments.get(atMs)
      moments.delete(atMs)
      return runs ? { atMs, runs } : null
    },
  }
}

/**
 * The state of the night beside a made-up plan. Left out are the numbers that the laptop gives in the order in which acts
 * come in, and with them the act that an undo would take back.
 */
function stateOf(night: Night, marks: readonly Mark[], beginsAt: Date, at: Date): string {
  const stops = night.stations.flatMap(({ id }, place) => planOf(id, place, beginsAt))
  const { seq: _order, stations, ...counts } = foldField({ night, tour: { stops }, marks, at })
  return JSON.stringify({ ...counts, stations: stations.map(({ stationId: _id, lastMarkKey: _key, ...now }) => now) })
}

/** One thing after the other, five minutes each. */
function planOf(stationId: string, place: number, beginsAt: Date): readonly Stop[] {
  return TARGETS.map((_, turn) => {
    const startMs = beginsAt.getTime() + turn * 5 * MINUTE_MS
    const [startsAt, endsAt] = [new Date(startMs), new Date(startMs + 5 * MINUTE_MS)]
    const targetKey = TARGETS[(turn + place) % TARGETS.length] ?? ''
    const rest = { setups: [], leaveBy: null, chance: 1, view: 1, looks: 0, reasons: [] }
    return { stationId, targetKey, aim: 'whole', startsAt, endsAt, ...rest }
  })
}

/** What is wrong with an evening, beside the same one without a fault; [] when every tap counts once and the row ends alike. */
export function judge(played: Played, calm: Played): readonly string[] {
  const names = (isBad: boolean): string =>
    played.script
      .filter((tap) => tap.isBad === isBad)
      .map(({ name }) => name)
      .join()
  const problems = [played, calm].flatMap(({ kept, refused, waiting }) => [
    ...([...kept].sort().join() === names(false)
      ? []
      : [`${kept.length} taps are kept, ${new Set(kept).size} of them different`]),
    ...(refused.join() === names(true) ? [] : [`${refused.length} taps are refused`]),
    ...(waiting === 0 ? [] : [`${waiting} taps still wait`]),
  ])
  return [...problems, ...(played.state === calm.state ? [] : [`The row ends as ${played.state}, not ${calm.state}`])]
}
