import type { Browser } from 'playwright-core'
import { expect } from 'vitest'
import { seededRandom } from '../../server/sky/random.ts'
import type { AwayCrowd } from '../support/away-crowd.ts'
import { FieldPhone } from './offline-phone.ts'
import type { FieldService } from './offline-service.ts'

const MINUTE_MS = 60_000
const SHORTEST_MS = 10_000
const LONGEST_MS = 30 * MINUTE_MS
const EQUAL_WITHIN_MS = 3_000
/** Some hundred times take many minutes; the end is told by whoever asked for them. */
const TOLD_EVERY = 50
const FATES = ['comes back', 'is reloaded', 'crashes', 'is closed', 'gets no answer'] as const
type Fate = (typeof FATES)[number]
const NONE: Readonly<Record<Fate, number>> = {
  'comes back': 0,
  'is reloaded': 0,
  crashes: 0,
  'is closed': 0,
  'gets no answer': 0,
}
/** By the phones' clocks, at once: as long as a page waits by chance that is told that it is back. */
const WAITED_MS = 1_000

interface Report {
  readonly runs: number
  readonly taps: number
  readonly fates: Readonly<Record<Fate, number>>
  /** How long after its return all phones showed the same, at most, in milliseconds. */
  readonly slowestMs: number
  /** How many times they took longer than was promised. */
  readonly late: number
}

/**
 * Sends one of three phones out of reach again and again, as a seed has it, and looks each time that nothing is lost or
 * doubled. With a crowd beside them, its phones and every second time the other two are away as well.
 */
export async function sendAway(
  browser: Browser,
  service: FieldService,
  runs: number,
  seed: number,
  crowd?: AwayCrowd,
): Promise<Report> {
  const random = seededRandom(seed)
  const phones = await Promise.all([1, 2, 3].map((place) => joined(browser, service, `Phone ${place}`)))
  const [away, ...others] = phones
  if (!away) throw new Error('There is a phone')
  expect(await away.page.evaluate('window.isSecureContext')).toBe(false)
  const fates = { ...NONE }
  let [slowestMs, late, taps] = [0, 0, 0]
  for (let run = 0; run < runs; run++) {
    const before = service.marks().length
    const fate = FATES[run % FATES.length] ?? 'comes back'
    const message = `seed ${seed}, run ${run}: ${fate}`
    const beside = crowd && run % 2 === 1 ? others : []
    const tapped = await tapAway(away, random)
    await Promise.all(beside.map((phone) => leave(phone, random)))
    const acts = tapped.length + ((await crowd?.goAway()) ?? 0)
    const backAtMs = await bringBack(away, service, fate)
    await Promise.all(beside.map(({ context }) => context.setOffline(false)))
    await Promise.all([crowd?.comeBack(WAITED_MS), ...phones.map((phone) => phone.pass(WAITED_MS))])
    const within = (timeout: number) => ({ timeout, interval: 20, message })
    await expect.poll(() => service.marks().length - before, within(40_000)).toBe(acts)
    await expect.poll(() => crowd?.behind() ?? 0, within(30_000)).toBe(0)
    await expect.poll(() => apart(phones, service), within(30_000)).toEqual([])
    const tookMs = Date.now() - backAtMs + WAITED_MS
    late += tookMs < EQUAL_WITHIN_MS ? 0 : 1
    await crowd?.askOnceMore()
    await expect.poll(() => crowd?.apart() ?? 0, within(EQUAL_WITHIN_MS)).toBe(0)
    await expect.poll(away.waiting, within(10_000)).toEqual([])
    const kept = service.marks().slice(before)
    expect(kept, message).toHaveLength(acts)
    expect(new Set(kept.map(({ key }) => key)).size, message).toBe(kept.length)
    slowestMs = Math.max(slowestMs, tookMs)
    taps += tapped.length
    fates[fate]++
    const done = run + 1
    if (done < runs && done % TOLD_EVERY === 0)
      console.log(`${done} of ${runs} times, slowest ${slowestMs} ms, ${late} late`)
  }
  await Promise.all(phones.map(({ context }) => context.close()))
  return { runs, taps, fates, slowestMs, late }
}

async function joined(browser: Browser, service: FieldService, name: string): Promise<FieldPhone> {
  return FieldPhone.join(service, await browser.newContext({ viewport: { width: 390, height: 844 } }), name)
}

/** What the phones show that is not the same or not of now; [] when all show the same. */
async function apart(phones: readonly FieldPhone[], service: FieldService): Promise<readonly string[]> {
  const said = await Promise.all(phones.map((phone) => phone.said()))
  const isSame = said.every((each) => each === said[0] && each.startsWith(`${service.version()} `))
  return isSame ? [] : said
}

/** Out of reach without a tap, for ten seconds to half an hour. */
async function leave(phone: FieldPhone, random: () => number): Promise<void> {
  await phone.context.setOffline(true)
  await phone.pass(Math.round(SHORTEST_MS + random() * (LONGEST_MS - SHORTEST_MS)))
}

/** Taps out of reach, for ten seconds to half an hour. */
async function tapAway(phone: FieldPhone, random: () => number): Promise<readonly string[]> {
  const awayMs = SHORTEST_MS + random() * (LONGEST_MS - SHORTEST_MS)
  const count = 1 + Math.floor(random() * 3)
  const tapped: string[] = []
  await phone.context.setOffline(true)
  for (let tap = 0; tap < count; tap++) {
    await phone.pass(Math.round(awayMs / (count + 1)))
    tapped.push(await phone.tap(random()))
  }
  await phone.pass(Math.round(awayMs / (count + 1)))
  return tapped
}

/** Brings the phone back into reach, as its fate has it; answers when that was. */
async function bringBack(phone: FieldPhone, service: FieldService, fate: Fate): Promise<number> {
  if (fate === 'is reloaded') await phone.page.reload().catch(() => {})
  if (fate === 'crashes') await phone.page.goto('chrome://crash').catch(() => {})
  if (fate === 'crashes' || fate === 'is closed') await phone.page.close()
  if (fate === 'gets no answer') service.loseAnswer()
  await phone.context.setOffline(false)
  const backAtMs = Date.now()
  if (fate !== 'comes back' && fate !== 'gets no answer') {
    await phone.openPage()
    return Date.now()
  }
  return backAtMs
}
