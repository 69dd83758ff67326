import { seededRandom } from '../../server/sky/random.ts'
import type { RouteRole } from '../../server/web/roles.ts'
import { fakeDesk } from './fake-desk.ts'
import { type OddRequest, oddRequest } from './odd-requests.ts'
import { type TestApp, testApp, WIDE } from './web.ts'

interface OddReport {
  readonly problems: readonly string[]
  readonly count: number
  /** How many answers there were of each hundred of statuses. */
  readonly answers: Readonly<Record<string, number>>
  /** Every route that was aimed at, the slowest first. */
  readonly routes: readonly RouteTimes[]
}
/** How long the answers of a route took. */
export interface RouteTimes {
  readonly route: string
  readonly count: number
  readonly medianMs: number
  readonly p99Ms: number
}
/** So many requests share a service, since what they add to it is kept. */
const TOGETHER = 25_000
const ALL_STREAMS = { perAddress: 1_000, inAll: 1_000 }

/** Sends odd requests one after the other, as a seed has them, and looks that nothing breaks; `tell` hears how many were sent. */
export async function oddRequests(
  count: number,
  seed: number,
  tell: (sent: number) => void = () => {},
): Promise<OddReport> {
  const random = seededRandom(seed)
  const seen = { problems: [] as string[], answers: {} as Record<string, number>, timesMs: new Map<string, number[]>() }
  for (let sent = 0; sent < count; sent += TOGETHER) {
    const routes: RouteRole[] = []
    const { app } = await testApp({
      desk: fakeDesk().desk,
      limits: { ...WIDE, live: ALL_STREAMS },
      routeSeen: (route) => routes.push(route),
    })
    for (let own = sent; own < Math.min(sent + TOGETHER, count); own++) {
      await sendOne(app, own, oddRequest(routes, random), seen)
    }
    await app.close()
    tell(Math.min(sent + TOGETHER, count))
  }
  return { problems: seen.problems, count, answers: seen.answers, routes: slowestFirst(seen.timesMs) }
}

interface Seen {
  readonly problems: string[]
  readonly answers: Record<string, number>
  readonly timesMs: Map<string, number[]>
}

async function sendOne(app: TestApp['app'], own: number, { route, asked }: OddRequest, seen: Seen): Promise<void> {
  const before = prototypes()
  const startedMs = performance.now()
  const answer = await app.inject(asked)
  answer.stream().destroy()
  const tookMs = performance.now() - startedMs
  const { statusCode } = answer
  const group = `${Math.floor(statusCode / 100)}xx`
  seen.answers[group] = (seen.answers[group] ?? 0) + 1
  const times = seen.timesMs.get(route) ?? []
  times.push(tookMs)
  seen.timesMs.set(route, times)
  const told = () =>
    `request ${own}: ${asked.method} ${String(asked.url).slice(0, 200)} ${String(asked.payload ?? '').slice(0, 300)}`
  if (statusCode >= 500) seen.problems.push(`${statusCode} to ${told()}`)
  if (prototypes() !== before) throw new Error(`A prototype was changed by ${told()}`)
}

function slowestFirst(timesMs: ReadonlyMap<string, readonly number[]>): readonly RouteTimes[] {
  return [...timesMs]
    .map(([route, times]) => {
      const sorted = [...times].sort((a, b) => a - b)
      const at = (part: number) => sorted[Math.floor(sorted.length * part)] ?? 0
      return { route, count: times.length, medianMs: at(0.5), p99Ms: at(0.99) }
    })
    .sort((a, b) => b.p99Ms - a.p99Ms)
}

const prototypes = (): string =>
  [Object.prototype, Array.prototype, String.prototype, Function.prototype]
    .map((each) => Reflect.ownKeys(each).length)
    .join()
