import { afterAll, describe, expect, it } from 'vitest'
import { freshFolder, removeFolder, SLOW_MS } from '../support/desk-folder.ts'
import { ended, type RunningService, startService } from '../support/running-service.ts'

const folder = freshFolder()
let running: RunningService | undefined
afterAll(async () => {
  if (running) await ended(running.child)
  removeFolder(folder)
})

async function start(...flags: string[]): Promise<RunningService> {
  running = await startService(folder, flags).open
  return running
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

    await ended(first.child)
    const second = await start()
    expect(second.pinLine).toMatch(/before.*--pin/)
    expect(second.pinLine).not.toMatch(/\d{6}/)
    expect(await hostPage(second.url, cookie)).toBe(200)
    expect((await signIn(second.url, pin)).status).toBe(201)

    await ended(second.child)
    const third = await start('--pin', '271828')
    expect(third.pinLine).toBe('PIN 271828')
    expect(await hostPage(third.url, cookie)).toBe(303)
    expect([(await signIn(third.url, pin)).status, (await signIn(third.url, '271828')).status]).toEqual([403, 201])
  })
})
