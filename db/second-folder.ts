import { constants } from 'node:fs'
import { access, copyFile, open, readdir, rename, rm, stat, writeFile } from 'node:fs/promises'
import { basename, join } from 'node:path'
import { type Copy, copiesAmong, crowdedOut, UNFINISHED } from './copies.ts'

/** Lies in the folder, so that one in whose place a stick is missing is not taken for the stick. */
const SIGN = 'duskrow-copies.txt'
const SIGN_TEXT = 'Duskrow keeps copies of its database in this folder.\n'

type SecondTrouble = 'missing' | 'not-writable' | 'full' | 'failed'

export interface SecondState {
  readonly trouble: SecondTrouble | null
  /** When the newest copy that is there was made. */
  readonly lastAt: Date | null
  /** True when it lies on the disk of the data folder, as an empty folder does in which a stick was to be. */
  readonly isOnSameDisk: boolean
}

interface SecondNeeds {
  /** The data folder. */
  readonly home: string
  /** True when a file there is a whole copy; it is read from end to end. */
  readonly isWhole: (path: string) => Promise<boolean>
  readonly copy?: typeof copyFile
}

export type SecondFolder = ReturnType<typeof secondFolder>

/**
 * Keeps copies of the copies in a folder elsewhere, such as a USB stick. It may be pulled out or full at any moment:
 * nothing here throws, and `state` tells. The folder itself is never made, since it would then lie on the disk of the laptop.
 */
export function secondFolder(path: string, { home, isWhole, copy = copyFile }: SecondNeeds) {
  let state: SecondState = { trouble: null, lastAt: null, isOnSameDisk: false }
  let underWay: Promise<void> | null = null
  let isKnown = false

  async function attempt(work: () => Promise<void>): Promise<void> {
    try {
      await work()
      const lastAt = copiesAmong(await readdir(path))[0]?.madeAt ?? null
      state = { trouble: null, lastAt, isOnSameDisk: (await stat(path)).dev === (await stat(home)).dev }
    } catch (error) {
      state = { ...state, trouble: troubleOf(error), isOnSameDisk: false }
    }
  }

  async function take(from: string): Promise<void> {
    const wanted = join(path, basename(from))
    const unfinished = `${wanted}${UNFINISHED}`
    try {
      await copy(from, unfinished)
      await synced(unfinished)
      if (!(await isWhole(unfinished))) throw new Error(`The copy ${unfinished} is damaged`)
      await rename(unfinished, wanted)
    } catch (error) {
      await rm(unfinished, { force: true }).catch(() => {})
      throw error
    }
  }

  async function check(): Promise<void> {
    if (!(await stat(path)).isDirectory()) throw Object.assign(new Error(path), { code: 'ENOTDIR' })
    await access(path, constants.W_OK)
    await writeFile(join(path, SIGN), SIGN_TEXT)
    isKnown = true
  }

  async function bringUpToDate(files: readonly string[]): Promise<void> {
    await (isKnown ? access(join(path, SIGN)) : check())
    const there = await readdir(path)
    for (const name of there) if (name.endsWith(UNFINISHED)) await rm(join(path, name), { force: true })
    for (const file of files) if (!there.includes(basename(file))) await take(file)
    for (const { name } of crowdedOut(copiesAmong(await readdir(path)))) await rm(join(path, name), { force: true })
  }

  return {
    path,
    /** Looks once, at the start, whether the folder can be used. */
    check: (): Promise<void> => attempt(check),
    /** Copies the files that are not there yet; does nothing while it is still at it. */
    bringUpToDate(files: readonly string[]): Promise<void> {
      underWay ??= attempt(() => bringUpToDate(files)).finally(() => {
        underWay = null
      })
      return underWay
    },
    state: (): SecondState => state,
  }
}

/** Of each kind what the second folder must hold: the newest timed copy, and all that are kept apart. */
export const copiesToCarry = (copies: readonly Copy[]): readonly Copy[] => [
  ...copies.filter(({ kind }) => kind === 'timed').slice(0, 1),
  ...copies.filter(({ kind }) => kind !== 'timed'),
]

async function synced(path: string): Promise<void> {
  const file = await open(path, 'r+')
  try {
    await file.sync()
  } finally {
    await file.close()
  }
}

const TROUBLES: Readonly<Record<string, SecondTrouble>> = {
  ENOENT: 'missing',
  ENOTDIR: 'missing',
  ENODEV: 'missing',
  ENXIO: 'missing',
  ESTALE: 'missing',
  EACCES: 'not-writable',
  EPERM: 'not-writable',
  EROFS: 'not-writable',
  ENOSPC: 'full',
  EDQUOT: 'full',
  EFBIG: 'full',
}

const troubleOf = (error: unknown): SecondTrouble =>
  (error instanceof Error && 'code' in error ? TROUBLES[String(error.code)] : undefined) ?? 'failed'
