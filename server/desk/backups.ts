import { basename, join } from 'node:path'
import { backupsOf, type Copy, copiesAmong, copiesOf } from '../../db/copies.ts'
import type { CopyLook } from '../../db/copy-look.ts'
import { type CopyRefusal, refusalOf, stayHere, type WentBack, wishedFor, wishToGoBack } from '../../db/restore.ts'
import type { SecondState } from '../../db/second-folder.ts'
import { Fault, notFound } from '../errors.ts'
import type { Copier, CopyTrouble } from './copier.ts'
import { copyKeeper, type KeeperNeeds } from './copy-keeper.ts'

const MINUTE_MS = 60_000

/** A copy and what is in it. */
export interface CopySeen extends Copy, CopyLook {
  /** Why the database cannot go back to it, or null. */
  readonly refusal: CopyRefusal | null
}

/** Whether copies are made, for the board. */
export interface BackupStatus {
  /** False where copies are made on demand alone. */
  readonly isTimed: boolean
  readonly lastAt: Date | null
  /** The laptop's own time, by which copies are named, and the zone that it shows. */
  readonly laptop: { readonly now: Date; readonly zone: string }
  /** True when something that changed more than twenty minutes ago is in no copy. */
  readonly isLate: boolean
  /** Why the last copy failed; null when it did not. */
  readonly trouble: CopyTrouble | null
  /** The second folder; null where none was given. */
  readonly second: SecondState | null
  /** The copy that the next start goes back to, or null. */
  readonly goesBackTo: Pick<Copy, 'name' | 'madeAt'> | null
  /** What came of such a wish at this start; null without one. */
  readonly wentBack: WentBack | null
}

export interface BackupDesk {
  status(): BackupStatus
  /** Makes a copy now; a storage Fault rises when that fails. */
  copy(): Promise<void>
  /** The copies of the data folder, the newest first. */
  all(): Promise<readonly CopySeen[]>
  find(name: string): Promise<CopySeen>
  /** Has the next start go back to a copy; a conflict Fault rises for one that it could not go back to. */
  goBack(name: string): Promise<void>
  /** Takes that wish back. */
  stay(): void
}

interface BackupNeeds extends KeeperNeeds {
  readonly wentBack: WentBack | null
  /** Runs something every so many milliseconds and answers how to end that; null where copies are made on demand alone. */
  readonly every: ((ms: number, run: () => Promise<void>) => () => void) | null
}

/** Keeps copies: at the start, every ten minutes while something has changed since the last, and on demand. */
export function backupDesk(needs: BackupNeeds): { readonly desk: BackupDesk; close(): Promise<void> } {
  const { folder, nowMs, copier, second, wentBack, every } = needs
  const keeper = copyKeeper(needs)
  const end = every?.(MINUTE_MS, keeper.tick)
  if (every) void keeper.copy()
  return {
    desk: {
      ...shelf(folder, copier),
      status: () => ({
        ...keeper.state(),
        isTimed: every !== null,
        laptop: { now: new Date(nowMs()), zone: Intl.DateTimeFormat().resolvedOptions().timeZone },
        second: second?.state() ?? null,
        goesBackTo: wishedCopy(folder),
        wentBack,
      }),
      async copy() {
        await keeper.copy()
        const { trouble } = keeper.state()
        if (trouble !== null) throw new Fault('storage', `backups.trouble-${trouble}`)
      },
    },
    async close(): Promise<void> {
      end?.()
      keeper.stop()
      await copier.close()
    },
  }
}

function wishedCopy(folder: string): BackupStatus['goesBackTo'] {
  const name = basename(wishedFor(folder) ?? '')
  return copiesAmong([name])[0] ?? null
}

/** The copies that there are, and the way back to one. */
function shelf(folder: string, copier: Copier): Omit<BackupDesk, 'status' | 'copy'> {
  /** What is in the copies that were found whole; a file with its name never changes. */
  const whole = new Map<string, CopyLook>()

  async function seen(copies: readonly Copy[]): Promise<CopySeen[]> {
    const unread = copies.filter(({ name }) => !whole.has(name))
    const read = await copier.look(unread.map(({ name }) => join(backupsOf(folder), name)))
    const fresh = new Map(read.map((look, i) => [unread[i]?.name, look]))
    for (const [name, look] of fresh) if (name !== undefined && look.state === 'whole') whole.set(name, look)
    return copies.flatMap((copy) => {
      const look = whole.get(copy.name) ?? fresh.get(copy.name)
      return look ? [{ ...copy, ...look, refusal: refusalOf(look) }] : []
    })
  }

  async function find(name: string): Promise<CopySeen> {
    const [copy] = await seen(copiesOf(folder).filter((one) => one.name === name))
    if (!copy) throw notFound('copy')
    return copy
  }

  return {
    all: () => seen(copiesOf(folder)),
    find,
    async goBack(name) {
      const { refusal } = await find(name)
      if (refusal !== null) throw new Fault('conflict', `backups.refusal-${refusal}`)
      wishToGoBack(folder, join(backupsOf(folder), name))
    },
    stay: () => stayHere(folder),
  }
}
