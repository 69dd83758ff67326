import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { setTimeout as wait } from 'node:timers/promises'
import { Type } from 'typebox'
import { Value } from 'typebox/value'
import { freshFolder, removeFolder } from '../support/desk-folder.ts'
import { joinAs, phoneAddress } from './crowd.ts'
import { actOf, BEGINS, eveningIn } from './evening.ts'
import { lineOf, ROOT } from './startup.ts'

const PORT = 18_433
const PHONES = 40
const PAUSE_MS = 1_000
export const ASKED_OF_BURST_MS = 500

const Marks = Type.Object({ marks: Type.Array(Type.Object({ key: Type.String() })) })

/**
 * Forty phones act at the same moment, so many times: how long until the last of them has its answer, each time. The
 * service runs as `npm start` has it, after some bursts that do not count; each act must be there, once.
 */
export async function burstTimes(bursts: number): Promise<readonly number[]> {
  const folder = freshFolder()
  try {
    const { night, code } = await eveningIn(folder, { earlier: 1_200, steps: 20_000 })
    const args = ['server/main.ts', '--data', folder, '--port', String(PORT), '--clock', BEGINS]
    const child = spawn(process.execPath, ['--import', 'tsx', ...args], { cwd: ROOT })
    try {
      await lineOf(child, /http:\/\//)
      const place = { port: PORT, nightId: night.id, version: '' }
      const phones = await Promise.all(Array.from({ length: PHONES }, (_, i) => joinAs(place, phoneAddress(i), code)))
      const times: number[] = []
      for (let burst = -3; burst < bursts; burst++) {
        const beganMs = performance.now()
        await Promise.all(phones.map((phone, i) => phone.act(actOf(`burst-${burst + 3}-${i}-act`, night, i))))
        if (burst >= 0) times.push(performance.now() - beganMs)
        await wait(PAUSE_MS)
      }
      for (const phone of phones) phone.leave()
      await everyActIsThere(night.id, (bursts + 3) * PHONES)
      return times
    } finally {
      child.kill('SIGTERM')
      if (child.exitCode === null) await once(child, 'close')
    }
  } finally {
    removeFolder(folder)
  }
}

async function everyActIsThere(nightId: string, asked: number): Promise<void> {
  const answer = await fetch(`http://127.0.0.1:${PORT}/api/nights/${nightId}/marks`)
  const { marks } = Value.Parse(Marks, await answer.json())
  const keys = marks.map(({ key }) => key).filter((key) => key.startsWith('burst-'))
  if (new Set(keys).size !== asked || keys.length !== asked) {
    throw new Error(`${asked} acts were told as kept, ${keys.length} are there`)
  }
}

export async function benchBursts(): Promise<void> {
  console.log(toldOfBursts(await burstTimes(10)))
}

export const toldOfBursts = (times: readonly number[]): string =>
  `${PHONES} marks at the same moment, ${times.length} times: all answered within ${Math.max(...times).toFixed(0)} ms at most, ` +
  `${Math.min(...times).toFixed(0)} ms at best (asked: under ${ASKED_OF_BURST_MS} ms)`
