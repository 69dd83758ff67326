import { copyFileSync, rmSync } from 'node:fs'
import { join } from 'node:path'
import type { FastifyInstance } from 'fastify'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { north } from '../../seed-demo/north.ts'
import { seedEvening } from '../../seed-demo/seed.ts'
import type { Desk } from '../../server/desk/desk.ts'
import { freshFolder, openDesk, removeFolder, SLOW_MS } from '../support/desk-folder.ts'
import { THE_HOST } from '../support/join-data.ts'
import { asHost, testApp } from '../support/web.ts'

const folder = freshFolder()
const FILE = join(folder, 'duskrow.db')
const BACKUP = join(folder, 'yesterday.db')
let app: FastifyInstance
let desk: Desk
let url = ''

async function start(): Promise<void> {
  desk = await openDesk(folder)
  const sessions = { ...desk.sessions, who: () => THE_HOST }
  app = (await testApp({ desk: { ...desk, sessions } })).app
}
async function stop(): Promise<void> {
  await app.close()
  await desk.close()
}

beforeAll(async () => {
  await start()
  url = `/api/nights/${seedEvening(desk, north).id}`
}, SLOW_MS)
afterAll(async () => {
  await stop()
  removeFolder(folder)
})

const act = (key: string) => {
  const payload = { adults: 1, children: 0 }
  return { key, kind: 'counted', stationId: null, payload, secondsAgo: 0 }
}
const send = async (...keys: string[]) =>
  (await app.inject(asHost({ method: 'POST', url: `${url}/marks`, payload: { marks: keys.map(act) } }))).json()
const changes = async (since: string) => (await app.inject(asHost({ url: `${url}/changes?since=${since}` }))).json()
const keysOf = (marks: readonly { readonly key: string }[]) => marks.map(({ key }) => key)

/** The first event of the live stream for a phone that has been at a version. */
async function heardFrom(version: string): Promise<string> {
  const headers = { 'last-event-id': version }
  const answer = await app.inject({ ...asHost({ url: `${url}/live`, headers }), payloadAsStream: true })
  const heard: string = await new Promise((resolve) => answer.stream().once('data', (data) => resolve(String(data))))
  answer.stream().destroy()
  return heard
}

describe('a backup put back into the folder', () => {
  it('is noticed by phones that were ahead of it, and what they still hold is kept once', {
    timeout: SLOW_MS,
  }, async () => {
    await send('phone-a-01')
    await stop()
    copyFileSync(FILE, BACKUP)
    await start()
    const { version } = await send('phone-a-02', 'phone-a-03')
    expect((await changes(version)).isSnapshot).toBe(false)
    await stop()
    for (const rest of ['-wal', '-shm']) rmSync(`${FILE}${rest}`, { force: true })
    copyFileSync(BACKUP, FILE)
    await start()

    const fresh = await changes(version)
    expect([fresh.isSnapshot, keysOf(fresh.marks)]).toEqual([true, ['phone-a-01']])
    expect(await heardFrom(version)).toMatch(/"isSnapshot":true.*phone-a-01/)

    await send('phone-a-03', 'phone-b-01')
    await send('phone-a-03', 'phone-b-01', 'phone-a-01')
    // The numbers have come back to where that phone was, and still it must not take them for the ones it knew.
    expect((await changes(version)).isSnapshot).toBe(true)
    const all = await changes(fresh.version)
    expect([all.isSnapshot, keysOf(all.marks)]).toEqual([false, ['phone-a-03', 'phone-b-01']])
    expect(desk.marks.field(url.slice('/api/nights/'.length)).adultsIn).toBe(3)
  })
})
