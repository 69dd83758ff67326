import { execFileSync } from 'node:child_process'
import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { PROMISES, type Promised } from './fault-table.ts'

const ROOT = join(import.meta.dirname, '../..')
const FOLDER = join(ROOT, 'test-results/faults')
/** Set by the run of the long figures, so that the short run leaves their results alone. */
export const RECORDING = 'DUSKROW_RECORD_ROWS'

/** What a test of a promise has seen. */
interface Reached {
  readonly row: number
  /** Where several tests share a row. */
  readonly part?: string
  readonly reached: string
  readonly isReached: boolean
  readonly seed: number | null
  /** Of cases that were really run. */
  readonly count: number
}
export interface Recorded extends Reached {
  readonly asked: string
  readonly commit: string
}

/** Keeps what a test of a promise has seen, by its row, in the run of the long figures. */
export function recordRow(seen: Reached): void {
  if (process.env[RECORDING] === undefined) return
  const { asked } = promised(seen.row)
  mkdirSync(FOLDER, { recursive: true })
  const name = `row-${seen.row}${seen.part === undefined ? '' : `-${seen.part.replaceAll(/\W+/g, '-')}`}.json`
  writeFileSync(join(FOLDER, name), `${JSON.stringify({ ...seen, asked, commit: presentCommit() }, null, 2)}\n`)
}

export function promised(row: number): Promised {
  const found = PROMISES.find((each) => each.row === row)
  if (!found) throw new Error(`There is no row ${row}: rows go from 1 to ${PROMISES.length}`)
  return found
}

/** The commit that is checked out, with `+` behind it where files differ from it. */
export function presentCommit(): string {
  const git = (...words: string[]) => execFileSync('git', words, { cwd: ROOT, encoding: 'utf8' }).trim()
  return `${git('rev-parse', '--short=10', 'HEAD')}${git('status', '--porcelain') === '' ? '' : '+'}`
}

/** Takes away what was recorded of a row, so that a run that breaks off leaves nothing that looks like its result. */
export function forgetRow(row: number): void {
  for (const name of filesOf(row)) rmSync(join(FOLDER, name))
}

export const recordedOf = (row: number): readonly Recorded[] =>
  filesOf(row).map((name) => JSON.parse(readFileSync(join(FOLDER, name), 'utf8')))

function filesOf(row: number): readonly string[] {
  mkdirSync(FOLDER, { recursive: true })
  return readdirSync(FOLDER)
    .filter((name) => new RegExp(`^row-${row}(-.+)?\\.json$`).test(name))
    .sort()
}

/** The table of promises with what was reached at a commit, a line a part. */
export function rowTable(rows: readonly Promised[], recorded: (row: number) => readonly Recorded[], commit: string) {
  return [
    '| row | promise | figure asked | reached | seed, count, commit |',
    '|---|---|---|---|---|',
    ...rows.flatMap((each) => {
      const now = recorded(each.row).filter((seen) => seen.commit === commit)
      const unseen = each.files.length === 0 ? 'no test yet' : 'not run'
      return now.length === 0 ? [line(each, unseen, '')] : now.map((seen) => line(each, toldOf(seen), whence(seen)))
    }),
  ].join('\n')
}

const line = ({ row, promise, asked }: Promised, reached: string, from: string) =>
  `| ${row} | ${promise} | ${asked} | ${reached} | ${from} |`
const toldOf = ({ part, reached, isReached }: Recorded) =>
  `${isReached ? 'yes' : 'NO'}: ${part === undefined ? '' : `${part}: `}${reached}`
const whence = ({ seed, count, commit }: Recorded) => `${seed ?? 'no seed'}, ${count}, ${commit}`
