import { seedEvening } from '../../seed-demo/seed.ts'
import type { Desk } from '../../server/desk/desk.ts'
import { eveningSpan, nightHours } from '../../server/tours/hours.ts'
import type { Night } from '../../server/tours/night.ts'
import type { Tour } from '../../server/tours/tour.ts'
import type { RouteRole } from '../../server/web/roles.ts'
import { standingClock } from './desk-folder.ts'
import { hostedDesk } from './hosted-night.ts'
import { nightAddresses } from './night-addresses.ts'
import type { OddNight } from './odd-clocks.ts'
import { plainClock } from './other-clock.ts'
import { asHost } from './web.ts'

const STEPS = 60
const HOUR_MS = 3_600_000
const MINUTE_MS = 60_000
/** Before all of the nights. */
const BEFORE = '2026-12-31T00:00:00Z'

export interface Visited {
  readonly odd: OddNight
  readonly night: Night
  readonly tour: Tour
  readonly desk: Desk
  readonly addresses: readonly string[]
  /** The answer to an address at the moment to which the clock was put last. */
  readonly get: (url: string) => Promise<Answer>
}
export interface Answer {
  readonly url: string
  readonly status: number
  readonly type: string
  readonly body: string
}

/** A real desk and its whole service, which the host asks for the pages of one odd night after another. */
export async function oddClockRound() {
  const clock = standingClock(BEFORE)
  const routes: RouteRole[] = []
  const { desk, app, cookie, close } = await hostedDesk(clock, undefined, { routeSeen: (route) => routes.push(route) })

  async function get(url: string): Promise<Answer> {
    const asked = asHost({ method: 'GET', url, headers: { cookie }, payloadAsStream: true })
    const answer = await app.inject(asked)
    const { statusCode: status, headers } = answer
    const type = String(headers['content-type'] ?? '')
    const stream = answer.stream()
    if (!type.startsWith('text/event-stream')) return { url, status, type, body: String(await textOf(stream)) }
    stream.destroy()
    return { url, status, type, body: '' }
  }

  return {
    clock,
    /** The night with its programme, as a host makes both in the afternoon. */
    async visit(odd: OddNight): Promise<Visited> {
      clock.moveTo(BEFORE)
      const night = seedEvening(desk, odd)
      clock.moveTo(new Date(nightHours(night).opensAt.getTime() - 4 * HOUR_MS).toISOString())
      const tour = await desk.tours.build(night.id, { seed: 1, steps: STEPS })
      const keys = [...new Set([tour.stops[0]?.targetKey ?? 'm13', 'moon'])]
      return { odd, night, tour, desk, addresses: nightAddresses(routes, night, keys), get }
    },
    close,
  }
}

async function textOf(stream: AsyncIterable<unknown>): Promise<string> {
  const parts: Buffer[] = []
  for await (const part of stream) parts.push(Buffer.from(part as Uint8Array))
  return Buffer.concat(parts).toString('utf8')
}

/** The moment of the public hours at which most can be wrong: after the clocks have changed, else the middle. */
export function oddestMoment(night: Night): Date {
  const { opensAt, closesAt } = nightHours(night)
  const change = changeAt(night)
  if (change !== null && change >= opensAt && change < closesAt) return new Date(change.getTime() + 10 * MINUTE_MS)
  return new Date((opensAt.getTime() + closesAt.getTime()) / 2)
}

/** The first minute of the evening whose clock does not follow on the one before. */
function changeAt(night: Night): Date | null {
  const { fromAt, untilAt } = eveningSpan(night)
  const minuteOf = (at: Date): number => {
    const [hour, minute] = plainClock(at, night.site.zone).split(':').map(Number)
    return 60 * (hour ?? 0) + (minute ?? 0)
  }
  for (let ms = fromAt.getTime(); ms < untilAt.getTime(); ms += 15 * MINUTE_MS) {
    const step = minuteOf(new Date(ms + 15 * MINUTE_MS)) - minuteOf(new Date(ms))
    if ((step + 1440) % 1440 !== 15) return new Date(ms + 15 * MINUTE_MS)
  }
  return null
}
