import { spawnSync } from 'node:child_process'
import { cpSync, mkdtempSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join, relative } from 'node:path'
import { removeFolder } from './desk-folder.ts'
import { RECORDING } from './fault-rows.ts'
import type { Mutant } from './mutants.ts'

const ROOT = join(import.meta.dirname, '../..')
// What a mutant's test sees is no figure of these sources.
const { [RECORDING]: _asked, ...env } = process.env
const LEFT_OUT = /^(node_modules|\.git|test-results)(\/|$)/

/** A copy of the sources in which holes can be torn, beside the same packages. */
export function mutatedTree() {
  const tree = mkdtempSync(join(tmpdir(), 'duskrow-test-'))
  cpSync(ROOT, tree, { recursive: true, filter: (path) => !LEFT_OUT.test(relative(ROOT, path)) })
  symlinkSync(join(ROOT, 'node_modules'), join(tree, 'node_modules'))

  /** Tells whether tests are green in the copy as it stands, and what they said. */
  function tested(tests: readonly string[], only?: string): { isGreen: boolean; said: string } {
    const files = tests.map((test) => `tests/${test}`)
    const words = ['run', ...files, ...(only === undefined ? [] : ['-t', only])]
    const vitest = join(tree, 'node_modules/vitest/vitest.mjs')
    const { status, stdout, stderr } = spawnSync(process.execPath, [vitest, ...words], {
      cwd: tree,
      encoding: 'utf8',
      env,
    })
    return { isGreen: status === 0, said: `${stdout}${stderr}` }
  }

  return {
    tested,
    /** What a mutant's test says with its hole torn, which is mended again afterwards. */
    testedWith(mutant: Mutant): { isGreen: boolean; said: string } {
      const path = join(tree, mutant.file)
      const whole = readFileSync(path, 'utf8')
      writeFileSync(path, torn(whole, mutant))
      try {
        return tested([mutant.test], mutant.only)
      } finally {
        writeFileSync(path, whole)
      }
    },
    remove: () => removeFolder(tree),
  }
}

function torn(text: string, { name, changes }: Mutant): string {
  return changes.reduce((left, [from, to]) => {
    if (left.split(from).length !== 2) throw new Error(`${name}: ${from} does not stand there just once`)
    return left.replace(from, () => to)
  }, text)
}
