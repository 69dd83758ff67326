import { setTimeout as wait } from 'node:timers/promises'
import { type Heard, joinAs, type Operator, type Place, phoneAddress, type Visitor, visitorAt } from '../bench/crowd.ts'
import { actOf, type FullEvening } from '../bench/evening.ts'
import type { LoopDelay, Served } from './served-service.ts'
import { addressesOf } from './soak-addresses.ts'
import { type ComingBack, comingBack } from './soak-pages.ts'

const NIGHT_MIN = 480
const STORM_EVERY_NIGHT_MIN = 5
const CHECKS_EVERY_NIGHT_MIN = 30
/** Of the time that the pages of a storm are away. */
const REST_MS = 1_500
const LOOK_MS = 1_000
const ACTS_A_SECOND = 4
const VISITORS_PAGES_A_SECOND = 8
const SELDOM_EVERY_MS = 2_000
/** A sixth of the run, as five minutes of thirty, is what it may take to settle; what follows is compared in tenths. */
const SETTLES_BY = 1 / 6
const SPAN = 1 / 10

interface SoakPlan {
  /** Of real time, for a night of eight hours. */
  readonly minutes: number
  readonly pages: number
  readonly operators: number
}

export interface Soaked {
  readonly acts: number
  readonly lost: readonly string[]
  /** Pages that did not hear of an act just once, summed over all acts. */
  readonly unheard: number
  readonly storms: number
  /** Answers to pages that were asked for, by status. */
  readonly answers: Readonly<Record<string, number>>
  /** What was not answered well, with its status. */
  readonly failures: readonly string[]
  readonly memoryMb: { readonly settled: number; readonly end: number; readonly peak: number }
  /** Descriptors beside sockets, and sockets, while no page is open: fewest in each storm. */
  readonly resting: readonly { readonly sockets: number; readonly others: number }[]
  readonly loop: LoopDelay
}

interface Run {
  readonly place: Place
  readonly night: FullEvening['night']
  readonly service: Served
  readonly plan: SoakPlan
  readonly heard: Heard
  readonly streams: ComingBack
  readonly visitors: readonly Visitor[]
  readonly operators: readonly Operator[]
  readonly untilMs: number
  readonly answers: Record<string, number>
  readonly failures: string[]
  /** For a page. */
  readonly waiting: Set<Visitor>
}

/** How many times as fast as the real ones the hours of the night go by. */
export const speedOf = ({ minutes }: SoakPlan): number => NIGHT_MIN / minutes

/** A whole night in less time: phones act and ask for pages, pages listen, lose their lines all at once and come back. */
export async function soak(
  service: Served,
  place: Place,
  { night, code }: FullEvening,
  plan: SoakPlan,
): Promise<Soaked> {
  const heard: Heard = { lastAtMs: new Map(), times: new Map() }
  const streams = comingBack(place, plan.pages, heard)
  const of = <Thing>(count: number, make: (i: number) => Thing) => Array.from({ length: count }, (_, i) => make(i))
  const operators = await Promise.all(of(plan.operators, (i) => joinAs(place, phoneAddress(plan.pages + i), code)))
  const visitors = of(plan.pages, (i) => visitorAt(place, phoneAddress(i)))
  const untilMs = performance.now() + plan.minutes * 60_000
  const shared = { place, night, service, plan, heard, streams, visitors, operators }
  const run: Run = { ...shared, untilMs, answers: {}, failures: [], waiting: new Set() }
  await streams.open()
  await service.loopDelay('anew')
  const [memoryMb, resting, acts] = await Promise.all([watch(run), storm(run), act(run), browse(run), check(run)])
  const loop = await service.loopDelay()
  await wait(REST_MS)
  streams.cut()
  for (const each of [...visitors, ...operators]) each.leave()
  const unheard = acts.keys.map((key) => Math.abs(plan.pages - (heard.times.get(key) ?? 0)))
  return {
    acts: acts.keys.length,
    lost: acts.lost,
    unheard: unheard.reduce((sum, pages) => sum + pages, 0),
    storms: resting.length - 1,
    answers: run.answers,
    failures: run.failures,
    memoryMb: spansOf(memoryMb),
    resting,
    loop,
  }
}

/** Does something again and again until the night is over, each time when it is due. */
async function again({ untilMs }: Run, everyMs: number, work: (k: number) => unknown): Promise<void> {
  const beganMs = performance.now()
  for (let k = 0; beganMs + (k + 1) * everyMs < untilMs; k++) {
    await wait(Math.max(0, beganMs + (k + 1) * everyMs - performance.now()))
    await work(k)
  }
}

async function watch(run: Run): Promise<readonly number[]> {
  const memoryMb: number[] = []
  await again(run, LOOK_MS, () => memoryMb.push(run.service.residentMb()))
  return memoryMb
}

/** The middle of what was seen once it had settled, and at the end. */
function spansOf(memoryMb: readonly number[]): Soaked['memoryMb'] {
  const from = (share: number): number => Math.floor(memoryMb.length * share)
  const middle = (span: readonly number[]): number =>
    [...span].sort((a, b) => a - b)[Math.floor(span.length / 2)] ?? Number.NaN
  return {
    settled: middle(memoryMb.slice(from(SETTLES_BY), from(SETTLES_BY + SPAN))),
    end: middle(memoryMb.slice(from(1 - SPAN))),
    peak: Math.max(...memoryMb),
  }
}

/** All pages lose their streams at once, and come back at once a moment later. Answers what is open meanwhile. */
async function storm(run: Run): Promise<Soaked['resting']> {
  const resting: Soaked['resting'][number][] = []
  await again(run, realMs(run, STORM_EVERY_NIGHT_MIN), async () => {
    run.streams.cut()
    const looks: Soaked['resting'][number][] = []
    for (let looked = 0; looked < REST_MS; looked += 100) {
      await wait(100)
      looks.push(run.service.openFiles())
    }
    const fewest = (kind: 'sockets' | 'others'): number => Math.min(...looks.map((look) => look[kind]))
    resting.push({ sockets: fewest('sockets'), others: fewest('others') })
    await run.streams.open()
  })
  return resting
}

const realMs = ({ plan }: Run, nightMin: number): number => (nightMin * 60_000) / speedOf(plan)

/** Each act by the next phone, which then renews its page. */
async function act(run: Run): Promise<{ keys: readonly string[]; lost: readonly string[] }> {
  const { operators, night } = run
  const pages = addressesOf(night).operator
  const [keys, lost, sent]: [string[], string[], Promise<void>[]] = [[], [], []]
  await again(run, 1_000 / ACTS_A_SECOND, (k) => {
    const operator = operators[k % operators.length]
    const key = `act-${100_000 + k}`
    keys.push(key)
    const told = operator?.act(actOf(key, night, k)).catch((error) => void lost.push(`${key}: ${error}`))
    sent.push(Promise.all([told, ask(run, operator, pages[k % pages.length])]).then(() => {}))
  })
  await Promise.all(sent)
  return { keys, lost }
}

/** Visitors in turn; and now and then an operator, for what is seldom asked for. */
async function browse(run: Run): Promise<void> {
  const { visitors, operators, night } = run
  const { visitor, seldom } = addressesOf(night)
  const asked: Promise<void>[] = []
  const often = again(run, 1_000 / VISITORS_PAGES_A_SECOND, (k) => {
    asked.push(ask(run, visitors[k % visitors.length], visitor[k % visitor.length]))
  })
  const rarely = again(run, SELDOM_EVERY_MS, (k) => {
    asked.push(ask(run, operators[k % operators.length], seldom[k % seldom.length]))
  })
  await Promise.all([often, rarely])
  await Promise.all(asked)
}

/** At each half hour all operators look at once what is still well placed. */
async function check(run: Run): Promise<void> {
  const { operators, night } = run
  const paths = addressesOf(night)
  const asked: Promise<void>[] = []
  await again(run, realMs(run, CHECKS_EVERY_NIGHT_MIN), (k) => {
    const [one, ...others] = [...operators.slice(k % operators.length), ...operators.slice(0, k % operators.length)]
    asked.push(ask(run, one, paths.report), ...others.map((each, i) => ask(run, each, paths.check[i % 2])))
  })
  await Promise.all(asked)
}

/** Asks for a page unless the phone is still waiting for another, and notes how it was answered. */
async function ask({ answers, failures, waiting }: Run, phone: Visitor | undefined, path = '/'): Promise<void> {
  if (!phone || waiting.has(phone)) return
  waiting.add(phone)
  const status = await phone.see(path).catch(() => 'cut')
  waiting.delete(phone)
  answers[status] = (answers[status] ?? 0) + 1
  if (status !== 200) failures.push(`${status} ${path}`)
}
