import { setTimeout as wait } from 'node:timers/promises'
import { Type } from 'typebox'
import { Value } from 'typebox/value'
import { placeOf } from '../support/served-service.ts'
import { joinAs, type Place, phoneAddress } from './crowd.ts'
import { actOf, FULL, onEvening } from './evening.ts'
import { serving } from './startup.ts'

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
  return onEvening(FULL, ({ night, code }, folder) =>
    serving(folder, PORT, async () => {
      const place = await placeOf({ port: PORT }, night.id)
      const phones = await Promise.all(Array.from({ length: PHONES }, (_, i) => joinAs(place, phoneAddress(i), code)))
      const times: number[] = []
      for (let burst = -3; burst < bursts; burst++) {
        const beganMs = performance.now()
        await Promise.all(phones.map((phone, i) => phone.act(actOf(`burst-${burst + 3}-${i}-act`, night, i))))
        if (burst >= 0) times.push(performance.now() - beganMs)
        await wait(PAUSE_MS)
      }
      for (const phone of phones) phone.leave()
      await everyActIsThere(place, (bursts + 3) * PHONES)
      return times
    }),
  )
}

async function everyActIsThere({ port, nightId, version }: Place, asked: number): Promise<void> {
  const answer = await fetch(`http://127.0.0.1:${port}/api/nights/${nightId}/changes?since=${version}`)
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
