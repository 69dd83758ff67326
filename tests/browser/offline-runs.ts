import type { Browser } from 'playwright-core'
import { expect } from 'vitest'
import { seededRandom } from '../../server/sky/random.ts'
import { FieldPhone } from './offline-phone.ts'
import type { FieldService } from './offline-service.ts'

const MINUTE_MS = 60_000
const SHORTEST_MS = 10_000
const LONGEST_MS = 30 * MINUTE_MS
export const EQUAL_WITHIN_MS = 3_000
const FATES = ['comes back', 'is reloaded', 'crashes', 'is closed', 'gets no answer'] as const
type Fate = (typeof FATES)[number]

export interface Report {
  readonly runs: number
  readonly taps: number
  readonly fates: Readonly<Record<Fate, number>>
  /** How long after its return all phones showed the same, at most, in milliseconds. */
  readonly slowestMs: number
}

/** Sends one of three phones out of reach again and again, as a seed has it, and looks each time that nothing is lost or doubled. */
export async function sendAway(browser: Browser, service: FieldService, runs: number, seed: number): Promise<Report> {
  const random = seededRandom(seed)
  const contexts = await Promise.all([1, 2, 3].map(() => browser.newContext({ viewport: { width: 390, height: 844 } })))
  const [away, ...others] = await Promise.all(
    contexts.map((context, place) => FieldPhone.join(service, context, `Phone ${place}`)),
  )
  if (!away) throw new Error('There is a phone')
  expect(await away.page.evaluate('window.isSecureContext')).toBe(false)
  const fates: Record<Fate, number> = {
    'comes back': 0,
    'is reloaded': 0,
    crashes: 0,
    'is closed': 0,
    'gets no answer': 0,
  }
  /** What the phones show that is not the same or not of now; [] when all show the same. */
  const apart = async (): Promise<readonly string[]> => {
    const said = await Promise.all([away, ...others].map((phone) => phone.said()))
    const isSame = said.every((each) => each === said[0] && each.startsWith(`${service.version()} `))
    return isSame ? [] : said
  }
  let [slowestMs, taps] = [0, 0]
  for (let run = 0; run < runs; run++) {
    const before = service.marks().length
    const fate = FATES[run % FATES.length] ?? 'comes back'
    const message = `seed ${seed}, run ${run}: ${fate}`
    const tapped = await tapAway(away, random)
    const backAtMs = await bringBack(away, service, fate)
    const arrived = () => service.marks().length - before
    await expect.poll(arrived, { timeout: 40_000, interval: 20, message }).toBe(tapped.length)
    await expect.poll(apart, { timeout: 30_000, interval: 20, message }).toEqual([])
    const tookMs = Date.now() - backAtMs
    expect(tookMs, message).toBeLessThan(EQUAL_WITHIN_MS)
    await expect.poll(away.waiting, { timeout: 10_000, interval: 20, message }).toEqual([])
    const kept = service.marks().slice(before)
    expect(kept, message).toHaveLength(tapped.length)
    expect(new Set(kept.map(({ key }) => key)).size, message).toBe(kept.length)
    slowestMs = Math.max(slowestMs, tookMs)
    taps += tapped.length
    fates[fate]++
  }
  await Promise.all(contexts.map((context) => context.close()))
  return { runs, taps, fates, slowestMs }
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
