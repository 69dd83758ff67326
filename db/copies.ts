import { existsSync, readdirSync, rmSync } from 'node:fs'
import { basename, join } from 'node:path'

/** Why a copy was made. Only copies of the same kind crowd each other out. */
type CopyKind = 'timed' | 'before-migration' | 'before-restore'

export interface Copy {
  /** Its file's name. */
  readonly name: string
  readonly kind: CopyKind
  readonly madeAt: Date
}

/** Ends the name of a copy that is not whole yet; a process that was killed may leave one. */
export const UNFINISHED = '.unfinished'
/** How many of each kind are kept, the newest ones. */
const KEPT: Readonly<Record<CopyKind, number>> = { timed: 10, 'before-migration': 3, 'before-restore': 3 }
const NAME = /^(timed|before-migration|before-restore)(?:-\d+)?-(\d{4}-\d\d-\d\d)T(\d\d)-(\d\d)-(\d\d)-(\d{3})Z\.db$/

/** The folder of the copies within a data folder. */
export const backupsOf = (folder: string): string => join(folder, 'backups')

/** The file's name of a copy made at an instant; without colons, which a stick formatted for Windows does not take. */
export const copyName = (kind: CopyKind | `before-migration-${number}`, at: Date): string =>
  `${kind}-${at.toISOString().replace(/[:.]/g, '-')}.db`

/**
 * The copies among the names of files, the newest first; those from later than `now` were made while the clock was
 * ahead, and come after all others.
 */
export const copiesAmong = (names: readonly string[], now = new Date()): readonly Copy[] =>
  names
    .flatMap((name) => copyOf(name) ?? [])
    .sort((a, b) => Number(a.madeAt > now) - Number(b.madeAt > now) || b.madeAt.getTime() - a.madeAt.getTime())

/** The finished copies of a data folder, in the order of `copiesAmong`. */
export function copiesOf(folder: string, now = new Date()): readonly Copy[] {
  try {
    return copiesAmong(readdirSync(backupsOf(folder)), now)
  } catch {
    return []
  }
}

/** Those that others of their kind have crowded out; `copies` come in the order of `copiesAmong`. */
export function crowdedOut(copies: readonly Copy[]): readonly Copy[] {
  const seen: Record<CopyKind, number> = { timed: 0, 'before-migration': 0, 'before-restore': 0 }
  return copies.filter(({ kind }) => {
    seen[kind] += 1
    return seen[kind] > KEPT[kind]
  })
}

/**
 * Removes from a data folder what newer copies have crowded out, but never one of the `spared` paths, and what was left
 * unfinished: only to be called while no copy is under way.
 */
export function rotate(folder: string, spared: readonly string[], now = new Date()): void {
  if (!existsSync(backupsOf(folder))) return
  const left = readdirSync(backupsOf(folder)).filter((name) => name.includes(`.db${UNFINISHED}`))
  for (const name of left) rmSync(join(backupsOf(folder), name), { force: true })
  for (const { name } of crowdedOut(copiesOf(folder, now))) {
    const isSpared = spared.some((path) => basename(path) === name)
    if (!isSpared) rmSync(join(backupsOf(folder), name), { force: true })
  }
}

function copyOf(name: string): Copy | undefined {
  const [, kind, date, hour, minute, second, ms] = NAME.exec(name) ?? []
  if (kind !== 'timed' && kind !== 'before-migration' && kind !== 'before-restore') return undefined
  return { name, kind, madeAt: new Date(`${date}T${hour}:${minute}:${second}.${ms}Z`) }
}
