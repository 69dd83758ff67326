import { seededRandom } from '../../server/sky/random.ts'
import type { RouteRole } from '../../server/web/roles.ts'
import { fakeDesk } from './fake-desk.ts'
import { oddRequest } from './odd-requests.ts'
import { testApp, WIDE } from './web.ts'

export interface OddReport {
  readonly problems: readonly string[]
  readonly count: number
  /** How many answers there were of each hundred of statuses. */
  readonly answers: Readonly<Record<string, number>>
  readonly p99Ms: number
}
/** So many requests share a service, since what they add to it is kept. */
const TOGETHER = 5_000

/** Sends odd requests one after the other, as a seed has them, and looks that nothing breaks. */
export async function oddRequests(count: number, seed: number): Promise<OddReport> {
  const random = seededRandom(seed)
  const problems: string[] = []
  const answers: Record<string, number> = {}
  const timesMs: number[] = []
  const before = prototypes()
  for (let sent = 0; sent < count; sent += TOGETHER) {
    const routes: RouteRole[] = []
    const { app } = await testApp({
      desk: fakeDesk().desk,
      limits: { ...WIDE, live: { perAddress: 1_000, inAll: 1_000 } },
      routeSeen: (route) => routes.push(route),
    })
    for (let own = sent; own < Math.min(sent + TOGETHER, count); own++) {
      const asked = oddRequest(routes, random)
      const startedMs = performance.now()
      const answer = await app.inject(asked)
      answer.stream().destroy()
      timesMs.push(performance.now() - startedMs)
      const { statusCode } = answer
      const group = `${Math.floor(statusCode / 100)}xx`
      answers[group] = (answers[group] ?? 0) + 1
      const told = `request ${own}: ${asked.method} ${String(asked.url).slice(0, 200)} ${String(asked.payload ?? '').slice(0, 300)}`
      if (statusCode >= 500) problems.push(`${statusCode} to ${told}`)
      if (prototypes() !== before) throw new Error(`A prototype was changed by ${told}`)
    }
    await app.close()
  }
  timesMs.sort((a, b) => a - b)
  return { problems, count, answers, p99Ms: timesMs[Math.floor(timesMs.length * 0.99)] ?? 0 }
}

const prototypes = (): string =>
  [Object.prototype, Array.prototype, String.prototype, Function.prototype]
    .map((each) => Reflect.ownKeys(each).length)
    .join()
