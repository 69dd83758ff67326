import { spawnSync } from 'node:child_process'
import { join } from 'node:path'
import { parseArgs } from 'node:util'
import { forgetRow, presentCommit, promised, RECORDING, recordedOf, rowTable } from '../support/fault-rows.ts'
import { PROMISES } from '../support/fault-table.ts'

const ROOT = join(import.meta.dirname, '../..')
const VITEST = join(ROOT, 'node_modules/vitest/vitest.mjs')

const { values } = parseArgs({ options: { row: { type: 'string' } } })
const rows = values.row === undefined ? PROMISES : [promised(Number(values.row))]
const files = values.row === undefined ? [] : rows.flatMap((row) => row.files.map((file) => `tests/${file}`))
const isTested = rows.some((row) => row.files.length > 0)

for (const { row } of rows) forgetRow(row)
const status = isTested ? runTests() : 1
console.log(`\n${rowTable(rows, recordedOf, presentCommit())}`)
process.exit(status)

function runTests(): number {
  const words = [VITEST, 'run', '--config', 'vitest.long.config.ts', ...files]
  return (
    spawnSync(process.execPath, words, { cwd: ROOT, stdio: 'inherit', env: { ...process.env, [RECORDING]: 'yes' } })
      .status ?? 1
  )
}
