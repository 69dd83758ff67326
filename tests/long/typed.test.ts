import { expect, it } from 'vitest'
import { seededRandom } from '../../server/sky/random.ts'
import { recordRow } from '../support/fault-rows.ts'
import { typedRounds } from '../support/typed-round.ts'

const COUNT = Number(process.env.COUNT ?? 10_000)
const SEED = Number(process.env.SEED ?? 20261217)

it(`${COUNT} strings stay text on every page, list and answer (SEED=${SEED})`, async () => {
  const rounds = await typedRounds('every page')
  const random = seededRandom(SEED)
  const problems: string[] = []
  let [strings, pages] = [0, 0]
  try {
    while (strings < COUNT) {
      const seen = await rounds.round(random)
      problems.push(...seen.problems)
      strings += seen.strings
      pages += seen.pages
      console.log(`${strings} strings, ${pages} answers, ${problems.length} problems`)
    }
  } finally {
    await rounds.close()
  }
  const reached = `${strings} strings, ${pages} answers read as browsers do, ${problems.length} problems; not in Chromium`
  recordRow({ row: 15, reached, isReached: false, seed: SEED, count: strings })
  expect([...new Set(problems)]).toEqual([])
})
