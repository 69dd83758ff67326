import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdtempSync, readdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { createInterface } from 'node:readline'
import { Type } from 'typebox'
import { Value } from 'typebox/value'
import { afterAll, describe, expect, it } from 'vitest'
import { SLOW_MS } from '../support/desk-folder.ts'

const temporary = mkdtempSync(join(tmpdir(), 'duskrow-test-'))
afterAll(() => rmSync(temporary, { recursive: true, force: true }))

const demo = (...args: string[]) =>
  spawn(process.execPath, ['--import', 'tsx', join(import.meta.dirname, '../../seed-demo/main.ts'), ...args], {
    env: { ...process.env, TMPDIR: temporary, TMP: temporary, TEMP: temporary },
    stdio: ['ignore', 'pipe', 'pipe'],
  })
const Nights = Type.Object({ nights: Type.Array(Type.Object({ id: Type.String() })) })
const Stops = Type.Object({ stops: Type.Array(Type.Unknown()) })
const folders = () => readdirSync(temporary).filter((name) => name.startsWith('duskrow-demo-'))

describe('the demo', () => {
  it(
    'opens on the demo evening with a programme, prints address and PIN, and leaves nothing behind',
    async () => {
      const service = demo('--port', '0', '--pin', '161803')
      try {
        const lines: string[] = []
        for await (const line of createInterface({ input: service.stdout })) {
          lines.push(line)
          if (lines.length === 2) break
        }
        const [, url] = /(http:\/\/127\.0\.0\.1:\d+)$/.exec(lines[0] ?? '') ?? []
        expect(lines[1]).toBe('PIN 161803')
        expect(folders()).toHaveLength(1)

        const ask = async (path: string): Promise<unknown> => (await fetch(`${url}${path}`)).json()
        const health = await ask('/api/health')
        // 18:20 in Zurich, and the few seconds since.
        expect(health).toMatchObject({ isRehearsal: true, now: expect.stringMatching(/^2026-12-17T17:2[01]:/) })
        const { nights } = Value.Parse(Nights, await ask('/api/nights'))
        expect(nights).toHaveLength(2)
        for (const { id } of nights) {
          const { stops } = Value.Parse(Stops, await ask(`/api/nights/${id}/tour`))
          expect(stops.length).toBeGreaterThan(2)
        }
      } finally {
        service.kill('SIGTERM')
      }
      await once(service, 'exit')
      expect(folders()).toEqual([])
    },
    SLOW_MS,
  )

  it(
    'takes no data folder, since it keeps nothing',
    async () => {
      const service = demo('--data', temporary)
      const [code] = await once(service, 'exit')
      expect(code).toBe(1)
      expect(folders()).toEqual([])
    },
    SLOW_MS,
  )
})
