import { type ChildProcess, spawn } from 'node:child_process'
import { existsSync } from 'node:fs'
import { type ClientRequest, get, request } from 'node:http'
import { join } from 'node:path'
import { setTimeout as wait } from 'node:timers/promises'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { DATABASE_FILE } from '../db/open.ts'
import { north } from '../seed-demo/north.ts'
import { seedEvening } from '../seed-demo/seed.ts'
import { freshFolder, openDesk, removeFolder, SLOW_MS } from './support/desk-folder.ts'

const ROOT = join(import.meta.dirname, '..')
const STREAMS = 40
const running: ChildProcess[] = []
let folder = ''
let nightId = ''

beforeAll(async () => {
  folder = freshFolder()
  const desk = await openDesk(folder)
  nightId = seedEvening(desk, north).id
  await desk.close()
}, SLOW_MS)
afterAll(() => {
  for (const child of running) child.kill('SIGKILL')
  removeFolder(folder)
})

/** Starts something as `npm start` and its like do, with the preflight before it. */
function start(file: string, ...flags: string[]) {
  const child = spawn(process.execPath, ['server/preflight/main.mjs', file, ...flags], { cwd: ROOT })
  running.push(child)
  let said = ''
  for (const stream of [child.stdout, child.stderr]) stream.on('data', (text) => (said += text))
  const ended = new Promise<number | null>((resolve) => child.once('close', resolve))
  return { child, said: () => said, ended }
}

async function startOpen() {
  const service = start('server/main.ts', '--data', folder, '--port', '0', '--pin', '271828')
  await expect.poll(service.said, { timeout: SLOW_MS, interval: 50 }).toMatch(/PIN/)
  return { ...service, url: /http:\/\/127\.0\.0\.1:\d+/.exec(service.said())?.[0] ?? '' }
}

/** A page of the night that listens: settles once it hears something, and tells when its line has ended and how. */
async function listen(url: string) {
  let heard = ''
  let endedWhole = (_isWhole: boolean): void => {}
  const ended = new Promise<boolean>((resolve) => (endedWhole = resolve))
  await new Promise<void>((hears, fails) => {
    const asked: ClientRequest = get(`${url}/api/nights/${nightId}/live`, { agent: false }, (answer) => {
      answer.on('data', (text) => {
        heard += text
        hears()
      })
      answer.on('close', () => endedWhole(answer.complete))
      answer.on('error', () => {})
    })
    asked.on('error', fails)
  })
  return { heard: () => heard, ended }
}

it(
  `ends ${STREAMS} open pages and stops within two seconds, with nothing left beside the database`,
  async () => {
    const { child, ended, url } = await startOpen()
    const pages = await Promise.all(Array.from({ length: STREAMS }, () => listen(url)))
    const startedMs = performance.now()
    child.kill('SIGINT')
    expect(await ended).toBe(0)
    expect(performance.now() - startedMs).toBeLessThan(2_000)
    for (const page of pages) {
      expect(await page.ended).toBe(true)
      expect(page.heard()).toMatch(/retry: 1000\n\n$/)
    }
    expect(existsSync(join(folder, DATABASE_FILE))).toBe(true)
    for (const beside of ['-wal', '-shm']) expect(existsSync(join(folder, DATABASE_FILE + beside))).toBe(false)
  },
  SLOW_MS,
)

it(
  'tells a second start where it is open, and ends at once on a second Ctrl+C while a request hangs',
  async () => {
    const { child, ended, url } = await startOpen()
    const { port } = new URL(url)
    const second = start('server/main.ts', '--data', folder, '--port', port)
    expect(await second.ended).toBe(0)
    expect(second.said()).toMatch(new RegExp(`^Duskrow is open already at ${url}\\. [^\\n]+\\n$`))
    const demo = start('seed-demo/main.ts', '--port', port)
    expect(await demo.ended).toBe(1)
    expect(demo.said()).toMatch(/^Port \d+ is in use by a Duskrow that is open already\. [^\n]+\n$/)

    const headers = { origin: url, 'content-type': 'application/json', 'content-length': 20 }
    const hanging = request(`${url}/api/session`, { method: 'POST', headers, agent: false })
    hanging.on('error', () => {})
    hanging.write('{')
    await wait(200)
    child.kill('SIGINT')
    await wait(200)
    expect(child.exitCode).toBeNull()
    const startedMs = performance.now()
    child.kill('SIGINT')
    expect(await ended).toBe(1)
    expect(performance.now() - startedMs).toBeLessThan(1_000)
  },
  SLOW_MS,
)
