import type { FastifyInstance } from 'fastify'
import type { Night } from '../../server/tours/night.ts'
import { type PlannedStop, PlayedStation } from './played-plan.ts'
import { asHost, asVisitor } from './web.ts'

const OPENS_MS = Date.parse('2026-12-17T17:00:00Z')
const LENGTH_MIN = 180
export const minOf = (at: string): number => (Date.parse(at) - OPENS_MS) / 60_000

export interface PlayedNeeds {
  readonly app: FastifyInstance
  readonly night: Night
  readonly hostCookie: string
  readonly code: string
  readonly moveTo: (at: string) => void
}

/** What the script wrote down by itself while it played. */
export interface PlayedNotes {
  readonly stations: readonly PlayedStation[]
  readonly came: { adults: number; children: number }
  readonly left: { adults: number; children: number }
  peak: { people: number; min: number }
  readonly waits: {
    readonly min: number
    readonly stationId: string
    readonly inLine: number
    readonly waitMin: number
  }[]
  readonly acts: Map<string, number>
  readonly seen: Map<string, number>
}

/** Minute, adults and children through the gate. */
const GATE: readonly (readonly [min: number, adults: number, children: number])[] = [
  ...[-5, 0, 3, 9, 14, 21, 28].map((min, i) => [min, 4 + i, 6 + (i % 3)] as const),
  ...[44, 59, 74, 89].map((min, i) => [min, 5 - i, -6] as const),
  ...[104, 119, 134, 149, 164].map((min) => [min, -7, -2] as const),
]
const NAMES = ['Mirela', 'Jonas', 'Adaeze', 'Pirkko']
const THE_HOST = 'host'

/**
 * Plays the whole demo night over HTTP by a moved clock, a minute a step: four operators on four phones and the host, each
 * act written down by the script itself.
 */
export async function playNight(needs: PlayedNeeds): Promise<PlayedNotes> {
  const { app, night, code, moveTo } = needs
  const path = `/api/nights/${night.id}`
  const phones = new Map<string, string>()
  for (const name of NAMES) {
    const joined = await app.inject(
      asVisitor({ method: 'POST', url: '/api/join', payload: { secret: code, name, role: 'operator' } }),
    )
    phones.set(name, String(joined.headers['set-cookie']).split(';')[0] ?? '')
  }
  const planNow = async (): Promise<readonly PlannedStop[]> =>
    (await app.inject(asVisitor({ url: `${path}/tour` }))).json().stops
  const plan = await planNow()
  const notes: PlayedNotes = {
    stations: night.stations.map(({ id }) => new PlayedStation(id, plan, minOf)),
    came: { adults: 0, children: 0 },
    left: { adults: 0, children: 0 },
    peak: { people: 0, min: 0 },
    waits: [],
    acts: new Map(),
    seen: new Map(),
  }
  let sent = 0
  const mark = async (name: string, kind: string, stationId: string | null, payload: object): Promise<string> => {
    sent += 1
    const key = `played-night-${String(sent).padStart(4, '0')}`
    const draft = { key, kind, stationId, payload, secondsAgo: 0 }
    const cookie = name === THE_HOST ? needs.hostCookie : (phones.get(name) ?? '')
    const sender = name === THE_HOST ? asHost : asVisitor
    const request = { method: 'POST', url: `${path}/marks`, headers: { cookie }, payload: { marks: [draft] } } as const
    const answer = await app.inject(sender(request))
    if (answer.json().kept?.length !== 1) throw new Error(`An act was not kept: ${answer.body}`)
    if (kind !== 'undo') notes.acts.set(name, (notes.acts.get(name) ?? 0) + 1)
    return key
  }
  const stage: Stage = { notes, mark, planNow, needs, here: { adults: 0, children: 0 }, waitsFor: `${path}/queue` }
  for (let min = -5; min <= LENGTH_MIN; min++) {
    moveTo(new Date(OPENS_MS + min * 60_000).toISOString())
    for (const station of notes.stations) station.turn(min)
    if (min === LENGTH_MIN) break
    await gate(stage, min)
    await operators(stage, min)
    if (min >= 0 && min % 30 === 0) await noteWaits(stage, min)
    if (min === 101) await hostMakesAnew(stage)
  }
  for (const station of notes.stations) station.end(LENGTH_MIN)
  return notes
}

interface Stage {
  readonly notes: PlayedNotes
  readonly mark: (name: string, kind: string, stationId: string | null, payload: object) => Promise<string>
  readonly planNow: () => Promise<readonly PlannedStop[]>
  readonly needs: PlayedNeeds
  readonly here: { adults: number; children: number }
  readonly waitsFor: string
}

/** What the line helper's page says then, with the people in line by the script's own count. */
async function noteWaits({ notes, needs, waitsFor, here }: Stage, min: number): Promise<void> {
  const { stations } = (await needs.app.inject(asVisitor({ url: waitsFor }))).json()
  const open = stations.filter((station: { waitMin: number | null }) => station.waitMin !== null)
  const inLine = Math.round((here.adults + here.children) / Math.max(1, open.length))
  for (const { stationId, waitMin } of open) notes.waits.push({ min, stationId, inLine, waitMin })
}

async function gate({ notes, mark, here }: Stage, min: number): Promise<void> {
  for (const [at, adults, children] of GATE) {
    if (at !== min) continue
    await mark('Jonas', 'counted', null, { adults, children })
    for (const [sort, change] of [
      ['adults', adults],
      ['children', children],
    ] as const) {
      const real = Math.max(change, -here[sort])
      here[sort] += real
      if (real > 0) notes.came[sort] += real
      else notes.left[sort] -= real
    }
    const people = here.adults + here.children
    if (people > notes.peak.people) notes.peak = { people, min }
  }
}

/** The first never taps; the second confirms and times; the third ends early and has trouble; the fourth leaves the plan, and then the row. */
async function operators(stage: Stage, min: number): Promise<void> {
  const [, second, third, fourth] = stage.notes.stations
  if (second) await confirms(stage, second, min)
  if (third) await endsEarly(stage, third, min)
  if (fourth) await leavesThePlan(stage, fourth, min)
}

async function confirms({ notes, mark }: Stage, station: PlayedStation, min: number): Promise<void> {
  const { id, on } = station
  if (on && min === on.fromMin + 2) {
    await mark('Jonas', 'showing', id, { targetKey: on.targetKey, aim: on.aim })
    station.say(min, on.targetKey, on.aim)
  }
  if (min === 20 || min === 100) {
    const seconds = min === 20 ? 500 : 700
    await mark('Jonas', 'timed', id, { people: 10, seconds })
    station.time(min, 10, seconds)
  }
  if (on && (min === 25 || min === 70 || min === 130)) {
    await mark('Jonas', 'seen', id, { targetKey: on.targetKey, who: min === 70 ? 'half' : 'they' })
    station.saySeen()
    notes.seen.set(on.targetKey, (notes.seen.get(on.targetKey) ?? 0) + 1)
  }
  if (min === 111) {
    const key = await mark('Jonas', 'showing', id, { targetKey: 'm13', aim: 'whole' })
    await mark('Jonas', 'undo', null, { markKey: key })
    notes.acts.set('Jonas', (notes.acts.get('Jonas') ?? 0) - 1)
  }
}

async function endsEarly({ mark }: Stage, station: PlayedStation, min: number): Promise<void> {
  const { id, on } = station
  if (min === 31) {
    await mark('Adaeze', 'timed', id, { people: 8, seconds: 600 })
    station.time(min, 8, 600)
  }
  if (on && min === 47) {
    await mark('Adaeze', 'trouble', id, { what: 'cloud' })
    station.trouble(min)
  }
  if (on && min === 53) {
    await mark('Adaeze', 'showing', id, { targetKey: on.targetKey, aim: on.aim })
    station.say(min, on.targetKey, on.aim)
  }
  if (on?.stop && min === minOf(on.stop.endsAt) - 4 && min > 60) {
    await mark('Adaeze', 'shown', id, { targetKey: on.targetKey })
    station.finish(min)
  }
}

async function leavesThePlan({ mark }: Stage, station: PlayedStation, min: number): Promise<void> {
  const { id, on } = station
  if (min === 10) {
    await mark('Pirkko', 'timed', id, { people: 12, seconds: 720 })
    station.time(min, 12, 720)
  }
  if (min === 35) {
    const next = station.own.find((stop) => minOf(stop.startsAt) > min && stop.targetKey !== on?.targetKey)
    if (next) {
      await mark('Pirkko', 'skipped', id, { targetKey: next.targetKey, why: 'trees' })
      station.skip(next)
    }
  }
  if (min === 77) {
    const targetKey = on?.targetKey === 'm34' ? 'm45' : 'm34'
    await mark('Pirkko', 'showing', id, { targetKey, aim: 'whole' })
    station.say(min, targetKey, 'whole')
  }
  if (min === 152) {
    await mark(THE_HOST, 'station', id, { is: 'out' })
    station.leave(min)
  }
}

/** The host makes the programme anew and goes by it; every operator reads what their page shows from then on. */
async function hostMakesAnew({ notes, planNow, needs }: Stage): Promise<void> {
  const { app, night, hostCookie } = needs
  const host = { cookie: hostCookie }
  const built = await app.inject(
    asHost({ method: 'POST', url: `/api/nights/${night.id}/tour`, headers: host, payload: { steps: 5_000 } }),
  )
  const accepted = await app.inject(
    asHost({
      method: 'POST',
      url: `/nights/${night.id}/programme/accept`,
      headers: { ...host, 'content-type': 'application/x-www-form-urlencoded' },
      payload: new URLSearchParams({ key: 'accept-played-night', tourId: built.json().id }).toString(),
    }),
  )
  if (accepted.statusCode !== 303) throw new Error(`The new programme was not taken: ${accepted.body.slice(0, 200)}`)
  const plan = await planNow()
  for (const station of notes.stations) station.goBy(plan)
  notes.acts.set('host', 1)
}
