import { mkdtempSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, it } from 'vitest'
import { playOrders } from '../support/act-orders.ts'
import { removeFolder } from '../support/desk-folder.ts'
import { recordRow } from '../support/fault-rows.ts'

const SEED = Number(process.env.SEED ?? 20261217)
const SEQUENCES = 20_000

it(`acts that come late, again and in any order end as on paper (${SEQUENCES} sequences, SEED=${SEED})`, () => {
  const folder = mkdtempSync(join(tmpdir(), 'duskrow-test-'))
  const { problems, ...sums } = playOrders(SEQUENCES, SEED, folder)
  removeFolder(folder)
  console.log(`SEED=${SEED}: ${JSON.stringify(sums)}`)
  recordRow({
    row: 6,
    reached: `${sums.sequences} sequences of ${sums.arrivals} arrivals, ${sums.kept} told as kept, ${sums.undos} undos, ${sums.asked} states compared, ${problems.length} other than the model`,
    isReached: problems.length === 0 && sums.sequences >= SEQUENCES,
    seed: SEED,
    count: sums.sequences,
  })
  expect(problems).toEqual([])
  expect(sums.undos).toBeGreaterThan(SEQUENCES)
})
