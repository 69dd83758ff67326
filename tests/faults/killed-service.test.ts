import { type ChildProcess, spawn } from 'node:child_process'
import { join } from 'node:path'
import { Type } from 'typebox'
import { Value } from 'typebox/value'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { north } from '../../seed-demo/north.ts'
import { seedEvening } from '../../seed-demo/seed.ts'
import { seededRandom } from '../../server/sky/random.ts'
import { freshFolder, openDesk, removeFolder, SLOW_MS } from '../support/desk-folder.ts'

const ROOT = join(import.meta.dirname, '../..')
const KILLS = Number(process.env.KILLS ?? 2)
const SEED = Number(process.env.SEED ?? Date.now() % 1_000_000)
const PHONES = 4
const PIN = '271828'
const Kept = Type.Object({ marks: Type.Array(Type.Object({ key: Type.String() })) })

const folder = freshFolder()
let nightId = ''
let running: ChildProcess | undefined

beforeAll(async () => {
  const desk = await openDesk(folder, { pin: PIN })
  nightId = seedEvening(desk, north).id
  await desk.close()
}, SLOW_MS)
afterAll(() => {
  running?.kill('SIGKILL')
  removeFolder(folder)
})

/** Starts the service on the folder as a host would, and signs in. */
async function start(): Promise<{ child: ChildProcess; url: string; cookie: string }> {
  const flags = ['--data', folder, '--port', '0', '--pin', PIN, '--clock', '2026-12-17T17:20:00Z']
  const child = spawn(process.execPath, ['--import', 'tsx', 'server/main.ts', ...flags], { cwd: ROOT })
  running = child
  let said = ''
  child.stdout.on('data', (text) => (said += text))
  await expect.poll(() => said, { timeout: SLOW_MS, interval: 20 }).toMatch(/PIN/)
  const url = /http:\/\/127\.0\.0\.1:\d+/.exec(said)?.[0] ?? ''
  const headers = { origin: url, 'content-type': 'application/json' }
  const session = await fetch(`${url}/api/session`, { method: 'POST', headers, body: JSON.stringify({ pin: PIN }) })
  return { child, url, cookie: session.headers.get('set-cookie')?.split(';')[0] ?? '' }
}

/** Sends marks one after the other until the line breaks; calls back for every one that was acknowledged. */
async function tap(url: string, cookie: string, name: string, sent: Set<string>, acked: (key: string) => void) {
  for (let i = 0; ; i++) {
    const key = `${name}-${String(i).padStart(4, '0')}`
    sent.add(key)
    const mark = { key, kind: 'counted', stationId: null, payload: { adults: 1, children: 0 }, secondsAgo: 0 }
    const headers = { origin: url, 'content-type': 'application/json', cookie }
    try {
      const body = JSON.stringify({ marks: [mark] })
      const answer = await fetch(`${url}/api/nights/${nightId}/marks`, { method: 'POST', headers, body })
      if (answer.status === 200) acked(key)
    } catch {
      return
    }
  }
}

describe('the service, killed outright while phones send marks over HTTP', () => {
  it(`keeps every acknowledged mark once and invents none (${KILLS} kills, SEED=${SEED})`, {
    timeout: (KILLS + 1) * SLOW_MS,
  }, async () => {
    const random = seededRandom(SEED)
    const sent = new Set<string>()
    const acknowledged = new Set<string>()
    for (let kill = 0; kill < KILLS; kill++) {
      const { child, url, cookie } = await start()
      const killAt = acknowledged.size + 5 + Math.floor(random() * 50)
      const phones = Array.from({ length: PHONES }, (_, phone) =>
        tap(url, cookie, `kill${kill}-phone${phone}`, sent, (key) => {
          acknowledged.add(key)
          if (acknowledged.size === killAt) child.kill('SIGKILL')
        }),
      )
      await Promise.all(phones)
    }
    const { child, url } = await start()
    const { marks } = Value.Parse(Kept, await (await fetch(`${url}/api/nights/${nightId}/marks`)).json())
    const keys = marks.map(({ key }) => key)
    expect(acknowledged.size).toBeGreaterThanOrEqual(KILLS * 5)
    expect(new Set(keys).size).toBe(keys.length)
    expect([...acknowledged].filter((key) => !keys.includes(key))).toEqual([])
    expect(keys.filter((key) => !sent.has(key))).toEqual([])
    console.log(`SEED=${SEED}: ${KILLS} kills, ${acknowledged.size} acknowledged, ${keys.length} kept, none lost`)
    child.kill('SIGKILL')
  })
})
