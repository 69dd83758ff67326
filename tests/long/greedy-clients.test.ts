import { expect, it } from 'vitest'
import { BEGINS, eveningIn } from '../bench/evening.ts'
import { freshFolder, removeFolder } from '../support/desk-folder.ts'
import { recordRow } from '../support/fault-rows.ts'
import { besiege, longestHeldMs } from '../support/greed.ts'
import { placeOf, serveFolder } from '../support/served-service.ts'

const SECONDS = Number(process.env.SECONDS ?? 60)
const HONEST = { operators: 40, pages: 40, marksASecond: 10, seconds: SECONDS }
const EARLIER_ACTS = 1_200
/** One address that never waits for an answer, and one that asks again as soon as it has one. */
const GREED = { slow: 1_000, readers: 200, floods: 2 }
const PORT = 18_452
const LONGEST_MARK_MS = 500
const LONGEST_HELD_MS = 12_000
const MOST_MEMORY_MB = 300

it(`slow and greedy clients do not stop the night (${SECONDS} s)`, async () => {
  const folder = freshFolder()
  const evening = await eveningIn(folder, { earlier: EARLIER_ACTS })
  const service = await serveFolder(folder, PORT, '--clock', BEGINS)
  try {
    const looks: number[] = []
    const place = await placeOf(service, evening.night.id)
    const siege = await besiege(place, evening, HONEST, GREED, () => looks.push(service.residentMb()))
    const memoryMb = Math.max(...looks)
    const { slowMs, stillOpenMs: _, lost, ...told } = siege
    const heldMs = longestHeldMs(siege)
    console.log(JSON.stringify({ ...told, lost, heldMs, memoryMb, loop: await service.loopDelay() }))
    recordRow({
      row: 17,
      reached:
        `${siege.marks} marks, ${lost.length} lost, p99 ${siege.p99Ms.toFixed(0)} ms, ${slowMs.length} slow connections ` +
        `closed after ${(heldMs / 1_000).toFixed(1)} s at most, ${siege.readersCut} of ${GREED.readers} slow readers cut off, ` +
        `answers to the floods: ${JSON.stringify(siege.flooded)}, memory ${memoryMb.toFixed(0)} MB at most`,
      isReached:
        SECONDS >= 60 &&
        lost.length + siege.unheard === 0 &&
        siege.p99Ms < LONGEST_MARK_MS &&
        heldMs < LONGEST_HELD_MS &&
        memoryMb < MOST_MEMORY_MB,
      seed: null,
      count: siege.marks,
    })
    expect(lost).toEqual([])
    expect(siege.unheard).toBe(0)
    expect(slowMs.length).toBeGreaterThan(0)
  } finally {
    await service.stop()
    removeFolder(folder)
  }
})
