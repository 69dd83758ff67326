import type { Night } from '../../server/tours/night.ts'
import { operators } from './played-operators.ts'
import { type PlannedStop, PlayedStation } from './played-plan.ts'
import { type Act, minOf, OPENS_MS, type PlayedNeeds, type PlayedNotes, type Stage, THE_HOST } from './played-stage.ts'
import { asHost, asVisitor } from './web.ts'

const FIRST_MIN = -5
const LENGTH_MIN = 180
/** When the host has the programme made anew, and when they go by it. */
const ANEW_MIN = 101
const TAKEN_MIN = 108

/** Minute, adults and children through the gate; none at a half hour, when the lines are read. */
const GATE: readonly (readonly [min: number, adults: number, children: number])[] = [
  ...[-5, 1, 3, 9, 14, 21, 28].map((min, i) => [min, 4 + i, 6 + (i % 3)] as const),
  ...[44, 59, 74, 89].map((min, i) => [min, 5 - i, -6] as const),
  ...[104, 119, 134, 149, 164].map((min) => [min, -7, -2] as const),
]
const NAMES = ['Mirela', 'Jonas', 'Adaeze', 'Pirkko']

/**
 * Plays the whole demo night over HTTP, a minute a step: four operators on four phones and the host, each act written down
 * by the script itself with the moment that its answer names.
 */
export async function playNight(needs: PlayedNeeds): Promise<PlayedNotes> {
  const { ask, night, code, moveTo } = needs
  const path = `/api/nights/${night.id}`
  const phones = await joinPhones(ask, code)
  const planNow = async (): Promise<readonly PlannedStop[]> =>
    (await ask(asVisitor({ url: `${path}/tour` }))).json().stops
  const notes = blankNotes(night, await planNow())
  let sent = 0
  let turned = FIRST_MIN - 1
  /** What the programme did by itself up to a moment. */
  const turnTo = (min: number): void => {
    for (; turned < Math.floor(min); turned++) for (const station of notes.stations) station.turn(turned + 1)
  }
  const mark = async (name: string, kind: string, stationId: string | null, payload: object): Promise<Act> => {
    sent += 1
    const key = `played-night-${String(sent).padStart(4, '0')}`
    const draft = { key, kind, stationId, payload, secondsAgo: 0 }
    const cookie = name === THE_HOST ? needs.hostCookie : (phones.get(name) ?? '')
    const sender = name === THE_HOST ? asHost : asVisitor
    const request = { method: 'POST', url: `${path}/marks`, headers: { cookie }, payload: { marks: [draft] } } as const
    const answer = await ask(sender(request))
    const [kept] = answer.json().kept ?? []
    if (!kept) throw new Error(`An act was not kept: ${answer.body}`)
    if (kind !== 'undo') notes.acts.set(name, (notes.acts.get(name) ?? 0) + 1)
    turnTo(minOf(kept.happenedAt))
    return { key, min: minOf(kept.happenedAt) }
  }
  const here = { adults: 0, children: 0 }
  const stage: Stage = { notes, mark, planNow, turnTo, needs, here, waitsFor: `${path}/queue` }
  let anew: Promise<string> | undefined
  for (let min = FIRST_MIN; min <= LENGTH_MIN; min++) {
    await moveTo(new Date(OPENS_MS + min * 60_000).toISOString())
    turnTo(min)
    if (min === LENGTH_MIN) break
    await gate(stage, min)
    await operators(stage, min)
    if (min >= 0 && min % 30 === 0) await noteWaits(stage, min)
    if (min === ANEW_MIN) anew = hostMakesAnew(stage)
    if (min === TAKEN_MIN) await hostTakes(stage, (await anew) ?? '')
  }
  for (const station of notes.stations) station.end(LENGTH_MIN)
  return notes
}

async function joinPhones(ask: PlayedNeeds['ask'], code: string): Promise<ReadonlyMap<string, string>> {
  const phones = new Map<string, string>()
  for (const name of NAMES) {
    const payload = { secret: code, name, role: 'operator' }
    const joined = await ask(asVisitor({ method: 'POST', url: '/api/join', payload }))
    phones.set(name, String(joined.headers['set-cookie']).split(';')[0] ?? '')
  }
  return phones
}

const blankNotes = (night: Night, plan: readonly PlannedStop[]): PlayedNotes => ({
  stations: night.stations.map(({ id }) => new PlayedStation(id, plan, minOf)),
  came: { adults: 0, children: 0 },
  left: { adults: 0, children: 0 },
  peak: { people: 0, min: 0 },
  waits: [],
  acts: new Map(),
  seen: new Map(),
})

/** What the line helper's page says then, with the people in line by the script's own count. */
async function noteWaits({ notes, needs, waitsFor, here }: Stage, min: number): Promise<void> {
  const { stations } = (await needs.ask(asVisitor({ url: waitsFor }))).json()
  const open = stations.filter((station: { waitMin: number | null }) => station.waitMin !== null)
  const inLine = Math.round((here.adults + here.children) / Math.max(1, open.length))
  for (const { stationId, waitMin } of open) notes.waits.push({ min, stationId, inLine, waitMin })
}

async function gate({ notes, mark, here }: Stage, min: number): Promise<void> {
  for (const [at, adults, children] of GATE) {
    if (at !== min) continue
    const act = await mark('Jonas', 'counted', null, { adults, children })
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
    if (people > notes.peak.people) notes.peak = { people, min: act.min }
  }
}

/** The host has the programme made anew; that takes a while, and the evening goes on meanwhile. */
async function hostMakesAnew({ needs: { ask, night, hostCookie } }: Stage): Promise<string> {
  const url = `/api/nights/${night.id}/tour`
  const headers = { cookie: hostCookie }
  return (await ask(asHost({ method: 'POST', url, headers, payload: { steps: 5_000 } }))).json().id
}

/** The host goes by it; every operator reads what their page shows from then on. */
async function hostTakes({ notes, planNow, turnTo, needs: { ask, night, hostCookie } }: Stage, tourId: string) {
  const key = 'accept-played-night'
  const accepted = await ask(
    asHost({
      method: 'POST',
      url: `/nights/${night.id}/programme/accept`,
      headers: { cookie: hostCookie, 'content-type': 'application/x-www-form-urlencoded' },
      payload: new URLSearchParams({ key, tourId }).toString(),
    }),
  )
  if (accepted.statusCode !== 303) throw new Error(`The new programme was not taken: ${accepted.body.slice(0, 200)}`)
  const { marks } = (
    await ask(asHost({ url: `/api/nights/${night.id}/marks`, headers: { cookie: hostCookie } }))
  ).json()
  turnTo(minOf(marks.find((mark: { key: string }) => mark.key === key).happenedAt))
  const plan = await planNow()
  for (const station of notes.stations) station.goBy(plan)
  notes.acts.set(THE_HOST, 1)
}
