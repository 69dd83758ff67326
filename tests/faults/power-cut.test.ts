import { mkdtempSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { openFolder } from '../../db/folder.ts'
import { openStores } from '../../server/desk/stores.ts'
import { seededRandom } from '../../server/sky/random.ts'
import { removeFolder } from '../support/desk-folder.ts'
import { bundleTaker, folderWithNight, takerArgs, takeUntilKilled } from '../support/mark-folder.ts'
import { judgeAcks, straceLog } from '../support/strace-log.ts'

const KILLS = Number(process.env.KILLS ?? 4)
const SEED = Number(process.env.SEED ?? Date.now() % 1_000_000)
const KILL_MS = 30_000

let folder = ''
let removeTaker: () => void
beforeAll(async () => {
  removeTaker = await bundleTaker()
  folder = await folderWithNight()
}, KILL_MS)
afterAll(() => {
  removeTaker()
  removeFolder(folder)
})

/** What the folder holds once it is opened again after a kill. */
async function reopened() {
  const { db, close } = await openFolder(folder)
  const { nights, marks } = openStores(db)
  const [night] = nights.all()
  const found = {
    keys: marks.since(night?.id ?? '', 0).map(({ key }) => key),
    integrity: db.pragma('integrity_check', { simple: true }),
    broken: db.pragma('foreign_key_check'),
  }
  close()
  return found
}

describe('a service killed while it takes marks', () => {
  it(
    `holds every mark that it had acknowledged, once, and none that was never sent (${KILLS} kills, SEED=${SEED})`,
    async () => {
      const random = seededRandom(SEED)
      const before: string[] = []
      let acknowledged = 0
      for (let kill = 0; kill < KILLS; kill++) {
        const { prefix, acked } = await takeUntilKilled(folder, 1 + Math.floor(random() * 200))
        const { keys, integrity, broken } = await reopened()
        expect(integrity).toBe('ok')
        expect(broken).toEqual([])
        expect(new Set(keys).size).toBe(keys.length)
        expect(keys.slice(0, before.length)).toEqual(before)
        // The marks of this run are taken one after the other, so what is kept is a row without a hole from the first one on.
        const fresh = keys.slice(before.length)
        expect(fresh).toEqual(fresh.map((_, i) => `${prefix}-${String(i).padStart(5, '0')}`))
        expect(acked.length).toBeGreaterThan(0)
        expect(acked).toEqual(fresh.slice(0, acked.length))
        before.push(...fresh)
        acknowledged += acked.length
      }
      console.log(`SEED=${SEED}: ${KILLS} kills, ${acknowledged} marks acknowledged, ${before.length} kept, none lost`)
    },
    KILLS * KILL_MS,
  )
})

describe('a mark that is acknowledged', () => {
  const MARKS = 120

  async function verdictOf(manner: 'careful' | 'careless') {
    const data = await folderWithNight()
    const logs = mkdtempSync(join(tmpdir(), 'duskrow-test-'))
    try {
      return judgeAcks(straceLog(logs, takerArgs(data, `seen-${manner}`, MARKS, manner)))
    } finally {
      removeFolder(logs)
      removeFolder(data)
    }
  }

  it(
    'has been synced to the disk before the acknowledgement leaves',
    async () => {
      const { acks, syncs, early } = await verdictOf('careful')
      expect(acks).toBe(MARKS)
      expect(early).toEqual([])
      expect(syncs).toBeGreaterThanOrEqual(MARKS / 3)
      console.log(`${acks} acknowledgements, ${syncs} syncs of the write-ahead log, ${early.length} too early`)
    },
    KILL_MS,
  )

  it(
    'would leave too early if commits were not synced, and the same check sees that',
    async () => {
      const { acks, early } = await verdictOf('careless')
      expect(acks).toBe(MARKS)
      expect(early.length).toBeGreaterThan(MARKS * 0.9)
    },
    KILL_MS,
  )
})
