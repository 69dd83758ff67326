import { type ChildProcess, spawn } from 'node:child_process'
import { join } from 'node:path'
import { afterAll, describe, expect, it } from 'vitest'
import { freshFolder, removeFolder, SLOW_MS } from '../support/desk-folder.ts'

const ROOT = join(import.meta.dirname, '../..')
const folder = freshFolder()
let running: ChildProcess | undefined
afterAll(() => {
  running?.kill('SIGKILL')
  removeFolder(folder)
})

/** Starts the service on the folder and answers its address and the line about the PIN. */
async function start(...flags: string[]): Promise<{ url: string; pinLine: string }> {
  const args = ['--import', 'tsx', 'server/main.ts', '--data', folder, '--port', '0', ...flags]
  const child = spawn(process.execPath, args, { cwd: ROOT, stdio: ['ignore', 'pipe', 'inherit'] })
  running = child
  let said = ''
  child.stdout.on('data', (text) => (said += text))
  await expect.poll(() => said, { timeout: SLOW_MS, interval: 50 }).toMatch(/PIN.*\n/)
  const [address = '', pinLine = ''] = said.split('\n')
  return { url: address.replace('Duskrow is open at ', ''), pinLine }
}

/** Ends it as an empty battery does. */
function cut(): Promise<unknown> {
  const ended = new Promise((resolve) => running?.once('exit', resolve))
  running?.kill('SIGKILL')
  return ended
}

async function signIn(url: string, pin: string): Promise<{ status: number; cookie: string }> {
  const headers = { origin: url, 'content-type': 'application/json' }
  const answer = await fetch(`${url}/api/session`, { method: 'POST', headers, body: JSON.stringify({ pin }) })
  return { status: answer.status, cookie: answer.headers.get('set-cookie')?.split(';')[0] ?? '' }
}

const hostPage = async (url: string, cookie: string): Promise<number> =>
  (await fetch(`${url}/sites/new`, { headers: { cookie }, redirect: 'manual' })).status

describe('the service, cut off in the middle of the night and started again without a PIN', () => {
  it('keeps the PIN that is printed on paper and the host signed in, and says how to set another', {
    timeout: 2 * SLOW_MS,
  }, async () => {
    const first = await start()
    expect(first.pinLine).toMatch(/^PIN \d{6}$/)
    const pin = first.pinLine.slice('PIN '.length)
    const { cookie } = await signIn(first.url, pin)
    expect(await hostPage(first.url, cookie)).toBe(200)

    await cut()
    const second = await start()
    expect(second.pinLine).toMatch(/before.*--pin/)
    expect(second.pinLine).not.toMatch(/\d{6}/)
    expect(await hostPage(second.url, cookie)).toBe(200)
    expect((await signIn(second.url, pin)).status).toBe(201)

    await cut()
    const third = await start('--pin', '271828')
    expect(third.pinLine).toBe('PIN 271828')
    expect(await hostPage(third.url, cookie)).toBe(303)
    expect([(await signIn(third.url, pin)).status, (await signIn(third.url, '271828')).status]).toEqual([403, 201])
    await cut()
  })
})
