import { north } from '../../seed-demo/north.ts'
import { seedEvening } from '../../seed-demo/seed.ts'
import { AFTERNOON, freshFolder, openDesk, removeFolder, standingClock } from '../support/desk-folder.ts'
import { medianOf } from './median.ts'

const TIMES = 7
const WEST = { shut: ['sw', 'w', 'nw'], minutes: null }

/** Prints how long the host waits for a new programme when clouds come over the west of the demo night, the whole way through the worker and onto the disk. */
export async function benchAgain(): Promise<void> {
  const folder = freshFolder()
  const clock = standingClock(AFTERNOON)
  const desk = await openDesk(folder, { clock })
  try {
    const night = seedEvening(desk, north)
    await desk.tours.build(night.id)
    clock.moveTo('2026-12-17T17:22:00Z')
    const told = { key: 'clouds-over-the-west', kind: 'clouds', stationId: null, payload: WEST, secondsAgo: 0 }
    desk.marks.record(night.id, [told], 'host', 'host')
    const tookMs: number[] = []
    for (let k = 0; k < TIMES; k++) {
      const beganMs = performance.now()
      await desk.tours.build(night.id)
      tookMs.push(performance.now() - beganMs)
    }
    const [first = 0] = tookMs
    console.log(
      `Programme made again for clouds over the west: ${first.toFixed(0)} ms, median of ${TIMES} ${medianOf(tookMs).toFixed(0)} ms`,
    )
  } finally {
    await desk.close()
    removeFolder(folder)
  }
}
