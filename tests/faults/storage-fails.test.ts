import { mkdtempSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it, vi } from 'vitest'
import { openDatabase } from '../../db/open.ts'
import { removeFolder } from '../support/desk-folder.ts'
import { failingDatabase } from '../support/failing-database.ts'
import { recordRow } from '../support/fault-rows.ts'
import { OWN } from '../support/joined-night.ts'
import { type PhoneService, phoneService } from '../support/phone-service.ts'

/** How each failure is told: a full disk and one that takes nothing are not the same to whoever must help. */
const TOLD: Readonly<Record<string, { status: number; code: string }>> = {
  SQLITE_FULL: { status: 507, code: 'fault.disk-full' },
  SQLITE_IOERR_WRITE: { status: 507, code: 'fault.disk-refuses' },
  SQLITE_IOERR_FSYNC: { status: 507, code: 'fault.disk-refuses' },
  SQLITE_READONLY: { status: 507, code: 'fault.disk-refuses' },
  SQLITE_BUSY: { status: 503, code: 'fault.busy' },
}
const MOST_STEPS = 60

const disk = failingDatabase()
let service: PhoneService
beforeAll(async () => {
  service = await phoneService({}, openDatabase(':memory:'), disk.through)
})
afterAll(() => service.close())
// What open pages are told a moment later reads the database too, and would take the step that is to fail.
beforeEach(() => {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] })
})
afterEach(() => {
  vi.runAllTimers()
  vi.useRealTimers()
})

const act = (key: string) => ({
  key,
  kind: 'counted',
  stationId: null,
  payload: { adults: 1, children: 0 },
  secondsAgo: 0,
})
const sendAll = ({ phone, tokens }: PhoneService, keys: readonly string[]) =>
  phone({ method: 'POST', url: `/api/nights/${OWN.id}/marks`, payload: { marks: keys.map(act) } }, tokens.operator)
const send = (asked: PhoneService, key: string) => sendAll(asked, [key])
const tap = (asked: PhoneService, key: string) =>
  asked.send(`/field/${OWN.id}/marks`, { key, kind: 'counted', adults: '1', children: '0' }, asked.tokens.operator)
const timesKept = ({ desk }: PhoneService, key: string) =>
  desk.marks.since(OWN.id, 0).filter((mark) => mark.key === key).length

async function failEach(code: string, how: typeof send): Promise<number> {
  for (let step = 1; step <= MOST_STEPS; step++) {
    const key = `${how.name}-${code}-${step}`
    disk.failAt(step, code)
    const answer = await how(service, key)
    if (!disk.heal()) {
      expect(answer.statusCode).toBeLessThan(400)
      expect(timesKept(service, key)).toBe(1)
      return step - 1
    }
    expect([step, answer.statusCode]).toEqual([step, TOLD[code]?.status])
    if (how === send) expect(answer.json().error.code).toBe(TOLD[code]?.code)
    expect((await how(service, `next-${key}`)).statusCode).toBeLessThan(400)
    expect((await how(service, key)).statusCode).toBeLessThan(400)
    expect([timesKept(service, key), timesKept(service, `next-${key}`)]).toEqual([1, 1])
  }
  throw new Error(`An act takes more than ${MOST_STEPS} steps`)
}

describe('an act of which one step of the database fails is told so, and neither it nor the next is lost', () => {
  it.each(Object.keys(TOLD))('%s at every step', async (code) => {
    const steps = (await failEach(code, send)) + (await failEach(code, tap))
    expect(steps).toBeGreaterThan(10)
    const reached = `each of ${steps} steps answered honestly, the process up, the next act kept`
    recordRow({ row: 5, part: code, reached, isReached: true, seed: null, count: steps })
  })
})

it('acts of one sending are all kept or none, at whichever step it fails', async () => {
  for (let step = 1; step <= MOST_STEPS; step++) {
    const keys = [0, 1, 2].map((i) => `together-${step}-${i}`)
    disk.failAt(step, 'SQLITE_IOERR_WRITE')
    const { statusCode } = await sendAll(service, keys)
    const hasFailed = disk.heal()
    const kept = keys.reduce((sum, key) => sum + timesKept(service, key), 0)
    expect([step, statusCode < 400, kept]).toEqual([step, !hasFailed, kept === keys.length ? kept : 0])
    if (!hasFailed) return
  }
  throw new Error(`Three acts take more than ${MOST_STEPS} steps`)
})

it('a database that may not grow answers that the disk is full, and takes acts again once it may', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'duskrow-test-'))
  const db = openDatabase(folder)
  const asked = await phoneService({}, db)
  db.pragma(`max_page_count = ${db.pragma('page_count', { simple: true })}`)
  const kept: string[] = []
  let status = 200
  for (let i = 0; status === 200 && i < 500; i++) {
    const answer = await send(asked, `filling-${i}`)
    status = answer.statusCode
    if (status === 200) kept.push(`filling-${i}`)
    else expect(answer.json().error.message).toMatch(/disk is full/)
  }
  expect(status).toBe(507)
  expect(asked.desk.marks.since(OWN.id, 0).map(({ key }) => key)).toEqual(kept)
  db.pragma('max_page_count = 100000')
  expect((await send(asked, `filling-${kept.length}`)).statusCode).toBe(200)
  expect(db.pragma('integrity_check', { simple: true })).toBe('ok')
  await asked.close()
  removeFolder(folder)
})

it('what open pages are to be told fails without taking the service down', async () => {
  const said = vi.spyOn(console, 'error').mockReturnValue()
  await send(service, 'before-the-news')
  disk.failAt(1, 'SQLITE_IOERR_READ')
  vi.runAllTimers()
  expect(disk.heal()).toBe(true)
  expect(said).toHaveBeenCalledOnce()
  said.mockRestore()
  expect((await send(service, 'after-the-news')).statusCode).toBe(200)
})
