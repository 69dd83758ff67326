import { type ChildProcess, spawn } from 'node:child_process'
import { connect } from 'node:net'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { Fault } from '../server/errors.ts'
import { startProblem } from '../server/main.ts'
import { freshFolder, openDesk, removeFolder, SLOW_MS } from './support/desk-folder.ts'

const ROOT = join(import.meta.dirname, '..')
const running: ChildProcess[] = []
let folder = ''
let other = ''

beforeAll(async () => {
  folder = freshFolder()
  await (await openDesk(folder)).close()
  other = freshFolder()
}, SLOW_MS)
afterAll(() => {
  for (const child of running) child.kill('SIGKILL')
  removeFolder(folder)
  removeFolder(other)
})

function start(...flags: string[]) {
  const child = spawn(process.execPath, ['--import', 'tsx', 'server/main.ts', ...flags], { cwd: ROOT })
  running.push(child)
  let said = ''
  for (const stream of [child.stdout, child.stderr]) stream.on('data', (text) => (said += text))
  const ended = new Promise<number | null>((resolve) => child.once('exit', resolve))
  return { child, said: () => said, ended }
}

async function startOpen(...flags: string[]) {
  const service = start('--data', folder, '--port', '0', '--pin', '271828', ...flags)
  await expect.poll(service.said, { timeout: SLOW_MS, interval: 50 }).toMatch(/PIN/)
  const url = /http:\/\/127\.0\.0\.1:\d+/.exec(service.said())?.[0] ?? ''
  return { ...service, url }
}

/** It ends well within two seconds, and hangs up on a line that nothing comes over. */
async function stopsWithSpareLine(
  { child, ended, url }: Awaited<ReturnType<typeof startOpen>>,
  signal: NodeJS.Signals,
) {
  const spare = connect({ port: Number(new URL(url).port), host: '127.0.0.1' })
  const hungUp = new Promise((resolve) => spare.once('close', resolve))
  await new Promise((resolve) => spare.once('connect', resolve))
  const startedMs = performance.now()
  child.kill(signal)
  expect(await ended).toBe(0)
  expect(performance.now() - startedMs).toBeLessThan(2_000)
  await hungUp
}

describe('the process', { timeout: SLOW_MS }, () => {
  it.each(['SIGINT', 'SIGTERM'] as const)(
    'prints address and PIN once, and stops on %s within two seconds with a spare line open',
    async (signal) => {
      const service = await startOpen('--clock', '2026-12-17T17:20:00Z')
      const { said, url } = service
      expect(said()).toBe(
        [
          `Duskrow is open at ${url}`,
          'PIN 271828',
          'Open that address in a browser on this laptop and sign in with the PIN. Ctrl+C stops the program.',
          '',
        ].join('\n'),
      )
      const health = await (await fetch(`${url}/api/health`)).json()
      expect(health).toMatchObject({ isRehearsal: true, now: expect.stringMatching(/^2026-12-17T17:2/) })
      await stopsWithSpareLine(service, signal)
    },
  )

  it('refuses a data folder in use and a busy port in one sentence each, and stops on SIGHUP too', async () => {
    const service = await startOpen()
    const second = start('--data', folder, '--port', '0')
    expect(await second.ended).toBe(1)
    expect(second.said()).toMatch(/^Another Duskrow is already using the data folder [^\n]+\n$/)
    const third = start('--data', other, '--port', new URL(service.url).port)
    expect(await third.ended).toBe(1)
    expect(third.said()).toMatch(/^Port \d+ is already in use\. [^\n]+\n$/)
    await stopsWithSpareLine(service, 'SIGHUP')
  })

  it('refuses a flag that it cannot use in one sentence', async () => {
    const service = start('--port', 'eighty')
    expect(await service.ended).toBe(1)
    expect(service.said()).toBe('--port must be a whole number from 0 to 65535, not "eighty".\n')
  })
})

describe('startProblem', () => {
  const config = { port: 8080, folder: 'here' }
  it('has a sentence for what a host can mend, and none for a bug', () => {
    expect(startProblem(new Fault('conflict', 'fault.folder-in-use'), config)).toContain('here')
    expect(startProblem(Object.assign(new Error('x'), { code: 'EADDRINUSE' }), config)).toContain('8080')
    expect(startProblem(Object.assign(new Error('x'), { code: 'EACCES' }), config)).toContain('permission')
    expect(startProblem(Object.assign(new Error('x'), { code: 'SQLITE_FULL' }), config)).toContain('disk is full')
    expect(startProblem(new TypeError('x'), config)).toBeNull()
  })
})
