import { join } from 'node:path'
import { backupsOf, copiesOf, copyName, rotate } from '../../db/copies.ts'
import { wishedFor } from '../../db/restore.ts'
import { copiesToCarry, type SecondFolder } from '../../db/second-folder.ts'
import type { Copier, CopyFailure, CopyTrouble } from './copier.ts'

const MINUTE_MS = 60_000
const BETWEEN_COPIES_MS = 10 * MINUTE_MS
const LATE_MS = 20 * MINUTE_MS

export interface KeeperNeeds {
  readonly folder: string
  /** A number that grows with every change of the database. */
  readonly changes: () => number
  /** The laptop's own time. */
  readonly nowMs: () => number
  readonly copier: Copier
  readonly second: SecondFolder | null
}

/** Makes copies one after the other and knows how they went. */
export function copyKeeper({ folder, changes, nowMs, copier, second }: KeeperNeeds) {
  let lastMs = copiesOf(folder, new Date(nowMs()))[0]?.madeAt.getTime() ?? null
  let copiedChanges: number | null = null
  let changedSinceMs: number | null = null
  let trouble: CopyTrouble | null = null
  let isStopped = false
  let underWay: Promise<void> = Promise.resolve()

  const tidy = (): void => rotate(folder, [wishedFor(folder) ?? []].flat(), new Date(nowMs()))

  async function makeCopy(): Promise<void> {
    tidy()
    const [startMs, contained] = [nowMs(), changes()]
    const failure = await copier.copy(folder, copyName('timed', new Date(startMs)))
    if (failure !== null) return fail(failure)
    trouble = null
    lastMs = startMs
    copiedChanges = contained
    changedSinceMs = null
    tidy()
    void carry()
  }

  function fail(failure: CopyFailure): void {
    if (trouble === null && !isStopped) console.error('A copy of the database failed:', failure.why)
    trouble = failure.trouble
  }

  function copy(): Promise<void> {
    underWay = underWay.then(makeCopy).catch((error) => fail({ trouble: 'failed', why: String(error) }))
    return underWay
  }

  /** To the second folder, without anybody waiting for it. */
  async function carry(): Promise<void> {
    const copies = copiesToCarry(copiesOf(folder, new Date(nowMs())))
    await second?.bringUpToDate(copies.map(({ name }) => join(backupsOf(folder), name)))
  }

  return {
    copy,
    /** Looks, every minute, whether a copy is due. */
    async tick(): Promise<void> {
      if (changes() !== copiedChanges) changedSinceMs ??= nowMs()
      if (trouble !== null || (changedSinceMs !== null && isDue(nowMs() - (lastMs ?? 0)))) await copy()
      else if (second?.state().trouble) await carry()
    },
    /** A copy that is broken off from now on is no failure. */
    stop(): void {
      isStopped = true
    },
    /** When the last copy was made, why the last one failed, and whether a change of twenty minutes ago is in none. */
    state: () => ({
      lastAt: lastMs === null ? null : new Date(lastMs),
      trouble,
      isLate: changedSinceMs !== null && nowMs() - changedSinceMs > LATE_MS,
    }),
  }
}

/** A clock that was put back must not silence the copies until it has caught up. */
const isDue = (sinceLastMs: number): boolean => sinceLastMs >= BETWEEN_COPIES_MS || sinceLastMs < 0
