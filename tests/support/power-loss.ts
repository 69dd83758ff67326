import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import SqliteDatabase from 'better-sqlite3'
import { markStore } from '../../db/marks.ts'
import { DATABASE_FILE, openDatabase } from '../../db/open.ts'
import { openStores } from '../../server/desk/stores.ts'
import { seededRandom } from '../../server/sky/random.ts'
import { foldField } from '../../server/tours/fold.ts'
import type { Mark } from '../../server/tours/mark.ts'
import type { Night } from '../../server/tours/night.ts'
import { CUTS, type Cut, cutDisk, type Image } from './cut-disk.ts'
import { removeFolder } from './desk-folder.ts'
import { folderWithNight, type Manner, takerArgs } from './mark-folder.ts'
import { type DiskCall, writeLog } from './write-log.ts'

/** A night of acts taken by a process: the folder before it, all that it asked of the disk, and the marks in the end. */
interface LoggedNight {
  readonly before: Image
  readonly calls: readonly DiskCall[]
  readonly night: Night
  readonly marks: readonly Mark[]
}

/** What was seen of all the states that a cut can leave. */
interface PowerLoss {
  readonly cuts: number
  readonly states: number
  /** States that lack a mark which had been acknowledged before the cut. */
  readonly lost: number
  /** Every state with something wrong, in words. */
  readonly problems: readonly string[]
}

const LATER = new Date('2100-01-01T00:00:00Z')

/** Lets a process take `acts` marks, one a commit, and logs its writes. It needs the taker's bundle. */
export async function loggedNight(acts: number, manner: Manner = 'careful'): Promise<LoggedNight> {
  const folder = await folderWithNight()
  const logs = mkdtempSync(join(tmpdir(), 'duskrow-test-'))
  try {
    const names = readdirSync(folder).filter((name) => name.startsWith('duskrow.db'))
    const before = new Map(names.map((name) => [name, readFileSync(join(folder, name))]))
    const calls = writeLog(logs, folder, takerArgs(folder, 'power', acts, manner, 1))
    const db = openDatabase(folder)
    const { nights, marks } = openStores(db)
    const [night] = nights.all()
    if (!night) throw new Error('The folder has no night')
    const kept = marks.since(night.id, 0)
    db.close()
    return { before, calls, night, marks: kept }
  } finally {
    removeFolder(logs)
    removeFolder(folder)
  }
}

/** Cuts the power after every `everyCalls`-th call in all four ways, opens what is left and compares it with what was told. */
export function losePower(logged: LoggedNight, seed: number, everyCalls = 1): PowerLoss {
  const random = seededRandom(seed)
  const disk = cutDisk(logged.before)
  const scratch = mkdtempSync(join(tmpdir(), 'duskrow-test-'))
  const judge = judgeOf(logged, scratch)
  const seen = { cuts: 0, states: 0, lost: 0, problems: [] as string[] }
  let acked = 0
  for (const [i, call] of logged.calls.entries()) {
    disk.apply(call)
    if (call.does === 'ack') acked += 1
    if (i % everyCalls !== 0) continue
    seen.cuts += 1
    for (const cut of CUTS) {
      const { problems, isLost } = judge(disk.after(cut, random), acked)
      seen.states += 1
      if (isLost) seen.lost += 1
      seen.problems.push(...problems.map((problem) => `${where(i, cut, call)}: ${problem}`))
    }
  }
  removeFolder(scratch)
  return seen
}

const where = (i: number, cut: Cut, call: DiskCall): string => `${cut} after call ${i} (${call.does})`

function putImage(image: Image, folder: string): void {
  for (const name of readdirSync(folder)) rmSync(join(folder, name))
  for (const [name, bytes] of image) writeFileSync(join(folder, name), bytes)
}

/** Judges one state: marks are a row from the first one on, each as it was in the end, none lacking that was acknowledged. */
function judgeOf({ night, marks }: LoggedNight, folder: string) {
  const told = marks.map((mark) => JSON.stringify(mark))
  const foldOf = (first: readonly Mark[]) => JSON.stringify(foldField({ night, tour: null, marks: first, at: LATER }))
  const folds = new Map<number, string>()
  const expectedFold = (count: number): string => {
    const known = folds.get(count) ?? foldOf(marks.slice(0, count))
    folds.set(count, known)
    return known
  }

  return (image: Image, acked: number): { problems: readonly string[]; isLost: boolean } => {
    putImage(image, folder)
    const db = new SqliteDatabase(join(folder, DATABASE_FILE))
    try {
      // Mending after a cut is the same as at any opening; only the waiting for the disk is left out.
      db.pragma('synchronous = OFF')
      const integrity = db.pragma('integrity_check', { simple: true })
      const broken = db.pragma('foreign_key_check') as unknown[]
      const kept = markStore(db).since(night.id, 0)
      const isLost = kept.length < acked
      const problems = [
        integrity === 'ok' ? '' : `integrity ${String(integrity)}`,
        broken.length === 0 ? '' : `${broken.length} broken references`,
        isLost ? `${acked} acknowledged, ${kept.length} kept` : '',
        kept.some((mark, i) => JSON.stringify(mark) !== told[i])
          ? 'a mark that was not sent, twice or out of order'
          : '',
        foldOf(kept) === expectedFold(kept.length) ? '' : 'the fold differs',
      ]
      return { problems: problems.filter((problem) => problem !== ''), isLost }
    } catch (error) {
      return { problems: [`cannot be opened: ${String(error)}`], isLost: acked > 0 }
    } finally {
      db.close()
    }
  }
}
