import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import { join } from 'node:path'
import { setTimeout as wait } from 'node:timers/promises'
import { type Heard, joinAs, listen, type Operator, type Place, phoneAddress } from '../bench/crowd.ts'
import { actOf, type FullEvening } from '../bench/evening.ts'

const ROOT = join(import.meta.dirname, '../..')
const PROGRAM = join(import.meta.dirname, 'greedy-crowd.ts')
const SETTLE_MS = 1_000
const LONGEST_TO_LOST_MS = 10_000

/** Who takes more than a share, and of what. */
export interface Greed {
  readonly port: number
  readonly nightId: string
  /** Connections whose request never ends; each that is closed comes back. */
  readonly slow: number
  /** Streams that are not read, or a sip now and then. */
  readonly readers: number
  /** Addresses that ask as fast as they can. */
  readonly floods: number
}

/** What the greedy have seen. */
export interface GreedSeen {
  /** How long each slow connection was held. */
  readonly slowMs: number[]
  /** How long those have been held that were open at the end. */
  readonly stillOpenMs: readonly number[]
  /** Answers by their status, and `cut` for lines that were hung up on. */
  readonly flooded: Record<string, number>
  readersCut: number
}

interface Honest {
  readonly operators: number
  readonly pages: number
  readonly marksASecond: number
  readonly seconds: number
}

interface Siege extends GreedSeen {
  readonly marks: number
  readonly lost: readonly string[]
  readonly p50Ms: number
  readonly p99Ms: number
  readonly slowestMs: number
  /** Pages that did not hear of each act just once, summed over the acts. */
  readonly unheard: number
}

/** Honest phones act and listen, from addresses of their own, while others are greedy. `look` is called once a second. */
export async function besiege(
  place: Place,
  { night, code }: { readonly night: Pick<FullEvening['night'], 'stations'>; readonly code: string },
  honest: Honest,
  greed: Omit<Greed, 'port' | 'nightId'>,
  look: () => unknown = () => {},
): Promise<Siege> {
  const heard: Heard = { lastAtMs: new Map(), times: new Map() }
  const greedy = await letLoose({ ...greed, port: place.port, nightId: place.nightId })
  const looking = setInterval(look, 1_000)
  try {
    const pages = await all(honest.pages, (i) => listen(place, phoneAddress(i), heard))
    const operators = await all(honest.operators, (i) => joinAs(place, phoneAddress(honest.pages + i), code))
    const taken = await act(operators, honest, (k) => actOf(keyOf(k), night, k))
    await wait(SETTLE_MS)
    for (const each of pages) each.destroy()
    for (const each of operators) each.leave()
    const unheard = taken.map((_, k) => Math.abs(honest.pages - (heard.times.get(keyOf(k)) ?? 0)))
    return { ...(await calledOff(greedy)), ...summed(taken), unheard: unheard.reduce((sum, pages) => sum + pages, 0) }
  } finally {
    clearInterval(looking)
    greedy.kill('SIGKILL')
  }
}

const keyOf = (k: number): string => `act-${100_000 + k}`
const all = <Thing>(count: number, make: (i: number) => Promise<Thing>): Promise<Thing[]> =>
  Promise.all(Array.from({ length: count }, (_, i) => make(i)))

async function letLoose(greed: Greed): Promise<ChildProcess> {
  const words = ['--import', 'tsx', PROGRAM, JSON.stringify(greed)]
  const child = spawn(process.execPath, words, { cwd: ROOT, stdio: ['ignore', 'inherit', 'inherit', 'ipc'] })
  await once(child, 'message')
  return child
}

async function calledOff(greedy: ChildProcess): Promise<GreedSeen> {
  const told = once(greedy, 'message')
  greedy.send('enough')
  const [seen] = await told
  return seen
}

type Taken = { readonly tookMs: number } | { readonly lost: string }

/** Acts at an even pace, by one phone after the other; an act without an answer for ten seconds is lost. */
async function act(
  operators: readonly Operator[],
  { marksASecond, seconds }: Honest,
  actAt: (k: number) => Parameters<Operator['act']>[0],
): Promise<readonly Taken[]> {
  const sent: Promise<Taken>[] = []
  for (let k = 0; k < seconds * marksASecond; k++) {
    const operator = operators[k % operators.length]
    if (operator) sent.push(timed(() => operator.act(actAt(k))))
    await wait(1_000 / marksASecond)
  }
  return Promise.all(sent)
}

async function timed(send: () => Promise<void>): Promise<Taken> {
  const sentAtMs = performance.now()
  const late = wait(LONGEST_TO_LOST_MS, null, { ref: false }).then(() => Promise.reject(new Error('No answer')))
  return Promise.race([send(), late]).then(
    () => ({ tookMs: performance.now() - sentAtMs }),
    (error) => ({ lost: String(error) }),
  )
}

function summed(taken: readonly Taken[]) {
  const tookMs = taken.flatMap((each) => ('tookMs' in each ? [each.tookMs] : [])).sort((a, b) => a - b)
  const share = (of: number): number => tookMs[Math.ceil(tookMs.length * of) - 1] ?? Number.NaN
  const lost = taken.flatMap((each) => ('lost' in each ? [each.lost] : []))
  return { marks: taken.length, lost, p50Ms: share(0.5), p99Ms: share(0.99), slowestMs: share(1) }
}

/** The longest that a slow connection was held, or is being held. */
export const longestHeldMs = ({ slowMs, stillOpenMs }: GreedSeen): number =>
  [...slowMs, ...stillOpenMs].reduce((a, b) => Math.max(a, b), 0)
