import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Database } from 'better-sqlite3'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { migrate } from '../../db/migrate.ts'
import { openDatabase } from '../../db/open.ts'
import { sessionDesk } from '../../server/desk/sessions.ts'
import { openStores } from '../../server/desk/stores.ts'
import { freshFolder, removeFolder } from '../support/desk-folder.ts'

const PIN = '314159'
const HOUR_MS = 3_600_000
const LIMITS = { free: 3, windowMs: 60_000, longestWaitMs: 8_000 }

let db: Database
let nowMs = Date.UTC(2026, 11, 17, 17)
beforeEach(() => {
  db = openDatabase(':memory:')
  migrate(db)
})
afterEach(() => db.close())

const open = (pin: string | null = PIN) =>
  sessionDesk({ ...openStores(db), pin, limits: LIMITS, heard: new Map(), nowMs: () => nowMs })

describe('a host session', () => {
  it('opens for the right PIN and says who it is', async () => {
    const sessions = await open()
    expect(sessions.who(await sessions.signIn(PIN))).toMatchObject({ role: 'host', name: 'host' })
  })

  it('gets another token each time, of 128 bits', async () => {
    const sessions = await open()
    const tokens = [await sessions.signIn(PIN), await sessions.signIn(PIN)]
    expect(new Set(tokens).size).toBe(2)
    for (const token of tokens) expect(Buffer.from(token, 'base64url')).toHaveLength(16)
  })

  it('is dead once signed out, and the others live on', async () => {
    const sessions = await open()
    const [mine, yours] = [await sessions.signIn(PIN), await sessions.signIn(PIN)]
    sessions.signOut(mine)
    expect(sessions.who(mine)).toBeUndefined()
    expect(sessions.who(yours)).toBeDefined()
  })

  it('lasts the night and no longer', async () => {
    const sessions = await open()
    const token = await sessions.signIn(PIN)
    nowMs += 11.9 * HOUR_MS
    expect(sessions.who(token)).toBeDefined()
    nowMs += 0.2 * HOUR_MS
    expect(sessions.who(token)).toBeUndefined()
  })

  it('outlives a restart with the same PIN, and dies with a new one', async () => {
    const token = await (await open()).signIn(PIN)
    expect((await open()).who(token)).toBeDefined()
    expect((await open(null)).who(token)).toBeDefined()
    const changed = await open('271828')
    expect(changed.who(token)).toBeUndefined()
    await expect(changed.signIn(PIN)).rejects.toMatchObject({ code: 'forbidden' })
  })

  it('needs no PIN at the next starts: the first has made one, and only the first tells it', async () => {
    const first = await open(null)
    expect(first.newPin).toMatch(/^\d{6}$/)
    const token = await first.signIn(first.newPin ?? '')
    const second = await open(null)
    expect(second.newPin).toBeNull()
    expect(second.who(token)).toBeDefined()
    expect(second.who(await second.signIn(first.newPin ?? ''))).toBeDefined()
    expect((await open('271828')).newPin).toBe('271828')
  })

  it('is opened by another PIN in each new folder', async () => {
    const made = new Set<string | null>()
    for (let i = 0; i < 3; i++) {
      const fresh = openDatabase(':memory:')
      migrate(fresh)
      made.add(
        (await sessionDesk({ ...openStores(fresh), pin: null, limits: LIMITS, heard: new Map(), nowMs: () => nowMs }))
          .newPin,
      )
      fresh.close()
    }
    expect(made.size).toBe(3)
  })

  it('is nobody for a made-up token', async () => expect((await open()).who('made-up')).toBeUndefined())
})

describe('a wrong PIN', () => {
  it('is refused', async () => {
    await expect((await open()).signIn('000000')).rejects.toMatchObject({ code: 'forbidden', key: 'fault.wrong-pin' })
  })

  it('makes the next ones wait, longer each time, but never for good', async () => {
    const sessions = await open()
    const wrong = () => sessions.signIn('000000')
    for (let i = 0; i < LIMITS.free; i++) await expect(wrong()).rejects.toMatchObject({ code: 'forbidden' })
    for (const seconds of [1, 2, 4, 8, 8]) {
      await expect(sessions.signIn(PIN)).rejects.toMatchObject({ code: 'busy', values: { seconds } })
      nowMs += seconds * 1000
      await expect(wrong()).rejects.toMatchObject({ code: 'forbidden' })
    }
    nowMs += 8_000
    expect(sessions.who(await sessions.signIn(PIN))).toBeDefined()
    nowMs += 60_000
    expect(sessions.who(await sessions.signIn(PIN))).toBeDefined()
  })

  it('counts while it is still being worked on, so that many at once get no further', async () => {
    const sessions = await open()
    const tries = await Promise.allSettled(Array.from({ length: 6 }, () => sessions.signIn('000000')))
    const codes = tries.map((tried) => (tried.status === 'rejected' ? tried.reason.code : 'in'))
    expect(codes.sort()).toEqual(['busy', 'busy', 'busy', 'forbidden', 'forbidden', 'forbidden'])
  })

  it('does not hold up the thread that serves the pages', async () => {
    const sessions = await open()
    let isDone = false
    const trying = sessions
      .signIn('000000')
      .catch(() => undefined)
      .finally(() => {
        isDone = true
      })
    await new Promise((turn) => setImmediate(turn))
    expect(isDone).toBe(false)
    await trying
  })
})

it('neither the PIN nor a token stands in the data folder', async () => {
  const folder = freshFolder()
  const file = openDatabase(folder)
  migrate(file)
  const sessions = await sessionDesk({
    ...openStores(file),
    pin: PIN,
    limits: LIMITS,
    heard: new Map(),
    nowMs: () => nowMs,
  })
  const token = await sessions.signIn(PIN)
  const bytes = ['duskrow.db', 'duskrow.db-wal'].map((name) => readFileSync(join(folder, name), 'latin1')).join()
  expect(bytes).toContain('host')
  expect(bytes).not.toContain(token)
  expect(bytes).not.toContain(Buffer.from(token, 'base64url').toString('latin1'))
  expect(bytes).not.toContain(PIN)
  file.close()
  removeFolder(folder)
})
