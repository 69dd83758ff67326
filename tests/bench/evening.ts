import { joinSecret } from '../../db/join-secret.ts'
import type { DemoEvening } from '../../seed-demo/evening.ts'
import { north } from '../../seed-demo/north.ts'
import { seedEvening } from '../../seed-demo/seed.ts'
import { joinCodes } from '../../server/desk/join-codes.ts'
import type { MarkDraft } from '../../server/tours/mark.ts'
import type { Night } from '../../server/tours/night.ts'
import { AFTERNOON, freshFolder, openDesk, removeFolder, standingClock } from '../support/desk-folder.ts'

/** In the middle of the demo evening. */
export const BEGINS = '2026-12-17T17:20:00Z'
const MOST_AT_ONCE = 40

export interface FullEvening {
  readonly night: Night
  /** By which phones join it. */
  readonly code: string
}

interface Wanted {
  readonly evening?: DemoEvening
  /** Acts of the evening so far. */
  readonly earlier?: number
  /** Of the search for its programme; as many as a host's when not given. */
  readonly steps?: number
}

/** As full as the evenings of the measurements, with a programme that was searched for briefly. */
export const FULL: Wanted = { earlier: 1_200, steps: 20_000 }

/** Does something with an evening in a data folder of its own, which is taken away afterwards. */
export async function onEvening<Answer>(
  wanted: Wanted,
  work: (evening: FullEvening, folder: string) => Promise<Answer>,
): Promise<Answer> {
  const folder = freshFolder()
  try {
    return await work(await eveningIn(folder, wanted), folder)
  } finally {
    removeFolder(folder)
  }
}

/** A demo night in the middle of its evening, put into a data folder, with its programme and the acts so far. */
export async function eveningIn(folder: string, { evening = north, earlier = 0, steps }: Wanted): Promise<FullEvening> {
  const clock = standingClock(AFTERNOON)
  const desk = await openDesk(folder, { clock })
  try {
    const night = seedEvening(desk, evening)
    await desk.tours.build(night.id, steps === undefined ? {} : { steps })
    clock.moveTo(BEGINS)
    for (let k = 0; k < earlier; k += MOST_AT_ONCE) {
      const drafts = Array.from({ length: MOST_AT_ONCE }, (_, i) => actOf(`earlier-${k + i}`, night, k + i))
      desk.marks.record(night.id, drafts, 'Mirela', 'operator')
    }
    return { night, code: joinCodes(joinSecret(folder), night.id, 0).code }
  } finally {
    await desk.close()
  }
}

/** The acts of an evening in turn, at one station after the other. */
export function actOf(key: string, { stations }: Pick<Night, 'stations'>, k: number): MarkDraft {
  const stationId = stations[k % stations.length]?.id ?? null
  const targetKey = ['saturn', 'm45', 'moon', 'm42'][k % 4] ?? ''
  const acts = [
    { kind: 'showing', stationId, payload: { targetKey, aim: 'whole' } },
    { kind: 'seen', stationId, payload: { targetKey, who: 'they' } },
    { kind: 'timed', stationId, payload: { people: 10, seconds: 300 } },
    { kind: 'counted', stationId: null, payload: { adults: 2, children: 1 } },
    { kind: 'shown', stationId, payload: { targetKey } },
  ] as const
  return { key, secondsAgo: 0, ...(acts[Math.floor(k / stations.length) % acts.length] ?? acts[0]) }
}
