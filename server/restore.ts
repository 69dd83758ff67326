import { mkdirSync } from 'node:fs'
import { basename, join, resolve } from 'node:path'
import { pathToFileURL } from 'node:url'
import { parseArgs } from 'node:util'
import { backupsOf, type Copy, copiesOf } from '../db/copies.ts'
import { lookAtCopy } from '../db/copy-look.ts'
import { lockFolder } from '../db/lock.ts'
import { type CopyRefusal, goBackIfWished, refusalOf, type WentBack, wishToGoBack } from '../db/restore.ts'
import { Fault } from './errors.ts'
import { chosenFolder } from './preflight/folder.mjs'

const WHY_NOT: Readonly<Record<CopyRefusal, string>> = {
  none: 'is not there',
  damaged: 'is damaged',
  foreign: 'is no copy of a Duskrow database',
  newer: 'was made by a newer Duskrow than this one',
  unwritten: 'could not be copied, perhaps because the disk is full',
}

const NO_COPY = 'There is no whole copy to go back to. Name one that lies elsewhere with --from FILE.'

/** What came of going back to a copy, in two sentences. */
export function wentBackText({ path, refusal, asideAt, copiedTo }: WentBack): string {
  if (refusal !== null) return `${path} ${WHY_NOT[refusal]}. Nothing was changed.`
  const now = `The database is now ${basename(path)}.`
  if (asideAt === null) return `${now} There was none before.`
  const copy = copiedTo === null ? 'no copy of it could be made' : `a copy of it is ${basename(copiedTo)}`
  return `${now} The one of before lies in ${asideAt}, and ${copy}.`
}

interface Asked {
  readonly folder: string
  /** The copy to go back to; null for the newest whole one. */
  readonly from: string | null
  readonly isListOnly: boolean
}

function asked(args: readonly string[], env: NodeJS.ProcessEnv): Asked {
  const text = { type: 'string' } as const
  const options = { data: text, from: text, list: { type: 'boolean' } } as const
  const { data, from, list } = parseArgs({ args: [...args], options, strict: true }).values
  return {
    folder: resolve(chosenFolder(data, env, process.platform)),
    from: from === undefined ? null : resolve(from),
    isListOnly: list ?? false,
  }
}

/** A line of the list: the file's name, which tells the time, and what is in it. */
function lineOf(folder: string, { name }: Copy): string {
  const look = lookAtCopy(join(backupsOf(folder), name))
  const refusal = refusalOf(look)
  if (refusal !== null) return `  ${name}  ${WHY_NOT[refusal]}`
  return `  ${name}  ${Math.ceil(look.bytes / 1024)} kB, nights: ${look.nights}, marks: ${look.marks}`
}

/** The newest whole copy; one of a state that somebody has left by going back only where there is no other. */
function newestWhole(folder: string): string | undefined {
  const copies = copiesOf(folder)
  const left = copies.filter(({ kind }) => kind === 'before-restore')
  return [...copies.filter((copy) => !left.includes(copy)), ...left]
    .map(({ name }) => join(backupsOf(folder), name))
    .find((path) => refusalOf(lookAtCopy(path)) === null)
}

/** Goes back to a copy, on a folder that no service holds; answers what to say. */
async function goBack(folder: string, from: string): Promise<WentBack> {
  mkdirSync(folder, { recursive: true, mode: 0o700 })
  const unlock = lockFolder(folder)
  try {
    const refusal = refusalOf(lookAtCopy(from))
    if (refusal !== null) return { path: from, refusal, asideAt: null, copiedTo: null }
    wishToGoBack(folder, from)
    const wentBack = await goBackIfWished(folder, new Date())
    if (wentBack === null) throw new Error(`The wish was not kept in ${folder}`)
    return wentBack
  } finally {
    unlock()
  }
}

/** What the command `npm run restore` does: whether all that was asked is done, and what to say. */
export async function restore({ folder, from, isListOnly }: Asked): Promise<{ isDone: boolean; said: string }> {
  const copies = copiesOf(folder)
  const list = copies.length === 0 ? ['  none'] : copies.map((copy) => lineOf(folder, copy))
  const listed = [`Copies in ${backupsOf(folder)}, the newest first:`, ...list].join('\n')
  if (isListOnly) return { isDone: true, said: listed }
  const path = from ?? newestWhole(folder)
  if (path === undefined) return { isDone: false, said: `${listed}\n${NO_COPY}` }
  const wentBack = await goBack(folder, path)
  return { isDone: wentBack.refusal === null, said: `${listed}\n${wentBackText(wentBack)}` }
}

/** One plain sentence for what can go wrong. */
function problemOf(error: unknown): unknown {
  if (error instanceof Fault && error.key === 'fault.folder-in-use') {
    return `Duskrow is running on the data folder ${error.values.folder}. Stop it first, or go back from its page of copies.`
  }
  const isFlag = error instanceof Error && 'code' in error && String(error.code).startsWith('ERR_PARSE_ARGS')
  return isFlag ? error.message : error
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  try {
    const { isDone, said } = await restore(asked(process.argv.slice(2), process.env))
    console.log(said)
    process.exitCode = isDone ? 0 : 1
  } catch (error) {
    console.error(problemOf(error))
    process.exitCode = 1
  }
}
