import { seededRandom } from '../../server/sky/random.ts'
import type { FieldService } from '../browser/offline-service.ts'
import { FIELD_NAME } from './chromium.ts'
import { phoneNet } from './phone-net.ts'
import { bundlePhone, SocketPhone, stationsTold } from './socket-phone.ts'

const MINUTE_MS = 60_000
const SHORTEST_MS = 10_000
const LONGEST_MS = 30 * MINUTE_MS
/** After so long at the latest, a page that asks asks again. */
const LONGEST_ASK_MS = 6_000
const LOOK_EVERY_MS = 10
const TAPPING_SHARE = 0.1
/** The others sleep in a pocket, whose timers come due together. */
const AWAKE_SHARE = 0.1

/** How a phone is away, and what it notices of its return. */
const ABSENCES = ['cut', 'silent', 'no stream', 'hidden', 'untold'] as const
type Absence = (typeof ABSENCES)[number]

export type AwayCrowd = Awaited<ReturnType<typeof awayCrowd>>

/** Phones on real sockets that all go out of reach and come back at one moment, again and again, as a seed has it. */
export async function awayCrowd(service: FieldService, count: number, seed: number) {
  const code = await bundlePhone()
  const random = seededRandom(seed)
  const nightId = service.night.id
  const { port } = new URL(service.url)
  const phones = Array.from({ length: count }, (_, place) => {
    const address = `127.0.1.${place + 1}`
    const net = phoneNet({
      port: Number(port),
      host: FIELD_NAME,
      address,
      cookie: `duskrow-session=${service.session(`Phone ${place}`)}`,
    })
    return new SocketPhone({ code, net, nightId, seed: seed + place })
  })
  const looking = setInterval(() => {
    for (const { clock } of phones) clock.look()
  }, LOOK_EVERY_MS)
  const absences = new Map<SocketPhone, Absence>()
  const absent: Record<Absence, number> = { cut: 0, silent: 0, 'no stream': 0, hidden: 0, untold: 0 }
  let acts = 0
  /** Marks that there were when they came back. */
  let before = 0

  const nextKey = (): string => `crowd-${String(++acts).padStart(6, '0')}`
  const counted = { kind: 'counted', stationId: null, payload: { adults: 1, children: 0 } } as const
  const actAtLaptop = (): Promise<void> => service.record({ key: nextKey(), ...counted })
  function actAt(phone: SocketPhone): void {
    const station = service.night.stations[Math.floor(random() * service.night.stations.length)]
    const payload = { targetKey: random() < 0.5 ? 'm45' : 'm31', aim: 'whole' }
    phone.tap({ key: nextKey(), kind: 'showing', stationId: station?.id ?? null, payload, text: 'On it' })
  }

  function leave(phone: SocketPhone, absence: Absence): void {
    absences.set(phone, absence)
    absent[absence]++
    if (absence === 'hidden') phone.hide()
    phone.net.go(absence === 'silent' ? 'silent' : 'cut')
    phone.net.keepStreams(absence === 'no stream')
  }

  async function stayAway(phone: SocketPhone): Promise<void> {
    const awayMs = SHORTEST_MS + random() * (LONGEST_MS - SHORTEST_MS)
    const isAwake = random() < AWAKE_SHARE
    for (const ms of [awayMs / 2, awayMs / 2]) {
      if (isAwake) await phone.clock.pass(ms)
      else phone.clock.sleep(ms)
      if (random() < TAPPING_SHARE) actAt(phone)
    }
  }

  function apart(): readonly SocketPhone[] {
    const { stations } = JSON.parse(JSON.stringify(service.desk.marks.field(nightId)))
    const said = `${service.version()} ${service.marks().length} ${stationsTold(stations)}`
    return phones.filter((phone) => phone.said() !== said || phone.waiting() > 0)
  }
  const hasStream = (phone: SocketPhone): boolean => !['no stream', 'untold'].includes(absences.get(phone) ?? '')
  const knowsBefore = (phone: SocketPhone): boolean => absences.get(phone) === 'untold' || phone.keys().length >= before

  return {
    absent,
    /** Sends all of them away, some sooner than others, with acts by those that are still there and at the laptop; answers how many. */
    async goAway(): Promise<number> {
      const first = acts
      const shuffled = phones.map((phone) => ({ phone, at: random() })).sort((a, b) => a.at - b.at)
      for (const [place, { phone }] of shuffled.entries()) {
        if (place % Math.ceil(count / 3) === 0) await actAtLaptop()
        leave(phone, ABSENCES[Math.floor(random() * ABSENCES.length)] ?? 'cut')
      }
      await Promise.all(phones.map(stayAway))
      await actAtLaptop()
      return acts - first
    },

    /** Brings all of them back, and lets so much time pass by their clocks. */
    async comeBack(passMs: number): Promise<void> {
      before = service.marks().length
      for (const phone of phones) {
        phone.net.go(null)
        const absence = absences.get(phone)
        if (absence === 'hidden') phone.show()
        else if (absence !== 'untold') phone.online()
      }
      await Promise.all(phones.map(({ clock }) => clock.pass(passMs)))
    },

    /** How many phones do not know what they ought to by now: with a stream all, without one all of before their return. */
    behind: (): number => apart().filter((phone) => hasStream(phone) || !knowsBefore(phone)).length,
    /** Lets the phones without a stream, and those that nobody told of their return, ask once more. */
    async askOnceMore(): Promise<void> {
      await Promise.all(phones.map((phone) => hasStream(phone) || phone.clock.pass(LONGEST_ASK_MS)))
    },
    /** How many phones do not know of the night what the laptop knows, or hold something back. */
    apart: (): number => apart().length,

    /** Marks that phones were told of twice or never, over all that was. */
    faults(): { readonly repeated: number; readonly missed: number } {
      const keys = service
        .marks()
        .map(({ key }) => key)
        .join()
      const others = phones.filter((phone) => phone.keys().join() !== keys).length
      const sum = (name: 'repeated' | 'missed'): number => phones.reduce((total, { faults }) => total + faults[name], 0)
      return { repeated: sum('repeated'), missed: sum('missed') + others }
    },

    requests: (): number => phones.reduce((sum, { net }) => sum + net.counts.requests + net.counts.streams, 0),
    end(): void {
      clearInterval(looking)
      for (const phone of phones) phone.end()
    },
  }
}
