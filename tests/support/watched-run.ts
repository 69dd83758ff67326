import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { RECORDING } from './fault-rows.ts'
import { readWatched, WATCHED, type Watched } from './watched-browser.ts'

const ROOT = join(import.meta.dirname, '../..')
const VITEST = join(ROOT, 'node_modules/vitest/vitest.mjs')

interface WatchedRun {
  readonly tests: number
  /** The names of those that did not pass. */
  readonly failed: readonly string[]
  readonly seen: readonly Watched[]
}

interface TestResults {
  readonly numTotalTests: number
  readonly testResults: readonly {
    readonly name: string
    readonly status: string
    readonly assertionResults: readonly { readonly fullName: string; readonly status: string }[]
  }[]
}

/** Runs tests of the browser, all of them or those of the files named, with every page telling what it is and what it asks for. */
export async function watchedRun(files: readonly string[] = []): Promise<WatchedRun> {
  const folder = mkdtempSync(join(tmpdir(), 'duskrow-watched-'))
  const [told, results] = [join(folder, 'pages'), join(folder, 'results.json')]
  writeFileSync(told, '')
  const { [RECORDING]: _, ...env } = process.env
  const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${results}`]
  const words = [VITEST, 'run', '--config', 'vitest.browser.config.ts', ...reporters, ...files]
  await once(spawn(process.execPath, words, { cwd: ROOT, stdio: 'inherit', env: { ...env, [WATCHED]: told } }), 'exit')
  const { numTotalTests, testResults }: TestResults = JSON.parse(readFileSync(results, 'utf8'))
  const seen = readWatched(told)
  rmSync(folder, { recursive: true })
  const failed = testResults.flatMap(({ name, status, assertionResults }) => {
    const names = assertionResults.filter((each) => each.status === 'failed').map(({ fullName }) => fullName)
    return status === 'failed' && names.length === 0 ? [name] : names
  })
  return { tests: numTotalTests, failed, seen }
}
