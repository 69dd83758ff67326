import type { ChildProcess } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { cpus, loadavg } from 'node:os'
import { setTimeout as wait } from 'node:timers/promises'
import type { MarkDraft } from '../../server/tours/mark.ts'
import type { Night } from '../../server/tours/night.ts'
import { placeOf } from '../support/served-service.ts'
import { type Heard, joinAs, listen, type Operator, phoneAddress } from './crowd.ts'
import { actOf, onEvening } from './evening.ts'
import { shareOf } from './median.ts'
import { paceOfMachine } from './pace.ts'
import { residentMb, serving } from './startup.ts'

const PORT = 18_432
const VISITORS = 500
const OPERATORS = 40
const MARKS_A_SECOND = 5
const SECONDS = 60
/** Before anything counts: the service has run for hours when the evening is full. */
const WARM_UP_S = 20
const BURST_EVERY_S = 15
/** Acts of the evening so far: forty people, thirty acts each. */
const EARLIER = 1_200
const SETTLE_MS = 3_000
const ALLOWED_MS = { lastPage: 300, mark: 100 } as const

interface StreamFigures {
  /** From the tap until the last page has heard of it, of all but the slowest hundredth. */
  readonly lastPageMs: number
  readonly isWhole: boolean
  readonly marks: number
}

interface Taken {
  readonly key: string
  readonly sentAtMs: number
  readonly tookMs: number
}

/**
 * 500 visitors' pages listen, each from an address of its own, while 40 operators act: how long from the tap until the
 * last page has heard of it, how long the operator waits, whether each page hears each act once, and memory.
 */
export async function benchStreams(): Promise<StreamFigures> {
  return onEvening({ earlier: EARLIER }, ({ night, code }, folder) =>
    serving(folder, PORT, (child) => report(child, night, code)),
  )
}

async function report(child: ChildProcess, night: Night, code: string): Promise<StreamFigures> {
  const place = await placeOf({ port: PORT }, night.id)
  const heard: Heard = { lastAtMs: new Map(), times: new Map() }
  const pages = await all(VISITORS, (i) => listen(place, phoneAddress(i), heard))
  const operators = await all(OPERATORS, (i) => joinAs(place, phoneAddress(VISITORS + i), code))
  await actFor(WARM_UP_S, night, operators, 'warm-up')
  await wait(SETTLE_MS)
  const [memoryMb, beganSec] = [[residentMb(child)], workedSec(child)]
  const taken: Taken[] = []
  for (const half of ['act-1', 'act-2']) {
    taken.push(...(await actFor(SECONDS / 2, night, operators, half)))
    memoryMb.push(residentMb(child))
  }
  const busyPercent = (100 * (workedSec(child) - beganSec)) / SECONDS
  await wait(SETTLE_MS)
  for (const page of pages) page.destroy()
  for (const operator of operators) operator.leave()
  const figures = print(heard, taken)
  console.log(`  memory at start, middle, end: ${memoryMb.map((mb) => mb.toFixed(0)).join(', ')} MB resident`)
  console.log(`  ${paceOfMachine()}`)
  console.log(`  the service itself kept one core busy for ${busyPercent.toFixed(0)} per cent of the time`)
  return figures
}

const all = <Thing>(count: number, make: (i: number) => Promise<Thing>): Promise<Thing[]> =>
  Promise.all(Array.from({ length: count }, (_, i) => make(i)))

/** Acts at an even pace, by one operator after the other, and in the middle of each quarter of a minute by all at the same moment. */
async function actFor(seconds: number, night: Night, operators: readonly Operator[], name: string): Promise<Taken[]> {
  const sent: Promise<Taken>[] = []
  const tap = (operator: Operator | undefined): void => {
    if (!operator) return
    const k = sent.length
    const taken = timed(operator, actOf(`${name}${String(k).padStart(5, '0')}`, night, k))
    // A failure is met below, when all have been sent.
    taken.catch(() => {})
    sent.push(taken)
  }
  const burstEvery = BURST_EVERY_S * MARKS_A_SECOND
  for (let tick = 0; tick < seconds * MARKS_A_SECOND; tick++) {
    if (tick % burstEvery === Math.floor(burstEvery / 2)) for (const operator of operators) tap(operator)
    else tap(operators[tick % operators.length])
    await wait(1_000 / MARKS_A_SECOND)
  }
  return Promise.all(sent)
}

async function timed(operator: Operator, draft: MarkDraft): Promise<Taken> {
  const sentAtMs = performance.now()
  await operator.act(draft)
  return { key: draft.key, sentAtMs, tookMs: performance.now() - sentAtMs }
}

function print(heard: Heard, taken: readonly Taken[]): StreamFigures {
  const lastMs = taken.map(({ key, sentAtMs }) => (heard.lastAtMs.get(key) ?? Number.NaN) - sentAtMs)
  const markMs = taken.map(({ tookMs }) => tookMs)
  const told = [...heard.times.values()].reduce((sum, times) => sum + times, 0)
  const isWhole = taken.every(({ key }) => heard.times.get(key) === VISITORS)
  console.log(
    `${VISITORS} pages listening, ${OPERATORS} operators, ${MARKS_A_SECOND} marks a second and ${OPERATORS} at once every ` +
      `${BURST_EVERY_S} s, ${EARLIER} marks before:`,
  )
  console.log(
    `  phones and service share ${cpus().length} cores, for which ${loadavg()[0]?.toFixed(1)} threads were waiting in the last minute: real phones wait less`,
  )
  console.log(`  from the tap to the last page: ${shares(lastMs)} (p99 asked: under ${ALLOWED_MS.lastPage} ms)`)
  console.log(`  until the operator has the answer: ${shares(markMs)} (p99 asked: under ${ALLOWED_MS.mark} ms)`)
  console.log(
    `  delivered: ${told} of ${taken.length * VISITORS}, ${isWhole ? 'each once to each page' : 'NOT each once to each page'}`,
  )
  return { lastPageMs: shareOf(lastMs, 0.99), isWhole, marks: taken.length }
}

const shares = (timesMs: readonly number[]): string =>
  `p50 ${shareOf(timesMs, 0.5).toFixed(0)} ms, p99 ${shareOf(timesMs, 0.99).toFixed(0)} ms`

/** Seconds for which a process has had a core (Linux: user and system time, in hundredths). */
function workedSec({ pid }: ChildProcess): number {
  const [, fields = ''] = readFileSync(`/proc/${pid}/stat`, 'utf8').split(') ')
  const [user, system] = fields.split(' ').slice(11, 13).map(Number)
  return ((user ?? Number.NaN) + (system ?? Number.NaN)) / 100
}
