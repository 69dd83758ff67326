import { rmSync } from 'node:fs'
import { openFolder } from '../../db/folder.ts'
import { openBackups } from '../../server/desk/backup-start.ts'
import { newId } from '../../server/desk/ids.ts'
import { markLog } from '../../server/desk/mark-log.ts'
import { markDesk } from '../../server/desk/marks.ts'
import { openStores } from '../../server/desk/stores.ts'
import { longNight } from './backup-rounds.ts'
import { standingClock } from './desk-folder.ts'

interface Pace {
  /** Marks a side. */
  readonly marks: number
  readonly copies: number
  readonly calmP50Ms: number
  readonly copyingP50Ms: number
  readonly calmP99Ms: number
  readonly copyingP99Ms: number
}

const pauseMs = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms))

/** How long a mark takes, from its coming in to its answer, with copies made one after the other and without, by turns. */
export async function paceOfMarks(earlier: number, turns: number, marksInTurn: number): Promise<Pace> {
  const folder = await longNight(earlier)
  const open = await openFolder(folder)
  const { desk, close } = await openBackups({ ...open, folder })
  const stores = openStores(open.db)
  const clock = standingClock('2026-12-17T17:20:00Z')
  const log = markLog(stores.marks)
  const marks = markDesk({ ...stores, clock, log, knowsObject: () => true, programme: () => undefined })
  const nightId = stores.nights.all()[0]?.id ?? ''
  const [calm, copying]: [number[], number[]] = [[], []]
  let isCopying = false
  let copies = 0

  async function keepCopying(): Promise<void> {
    for (; isCopying; copies++) await desk.copy()
  }
  async function take(times: number[]): Promise<void> {
    for (let i = 0; i < marksInTurn; i++) {
      await pauseMs(2)
      const cameInMs = performance.now()
      await new Promise((resolve) => setImmediate(resolve))
      const payload = { adults: 1, children: 0 }
      const draft = { key: newId(), kind: 'counted', stationId: null, payload, secondsAgo: 0 }
      marks.record(nightId, [draft], 'Mirela', 'helper')
      times.push(performance.now() - cameInMs)
    }
  }

  await take([])
  for (let turn = 0; turn < turns; turn++) {
    await take(calm)
    isCopying = true
    const working = keepCopying()
    await take(copying)
    isCopying = false
    await working
  }
  await close()
  open.close()
  rmSync(folder, { recursive: true, force: true })
  const at = (times: readonly number[], share: number) =>
    [...times].sort((a, b) => a - b)[Math.floor(times.length * share)] ?? 0
  return {
    marks: calm.length,
    copies,
    calmP50Ms: at(calm, 0.5),
    copyingP50Ms: at(copying, 0.5),
    calmP99Ms: at(calm, 0.99),
    copyingP99Ms: at(copying, 0.99),
  }
}
