import { expect, it } from 'vitest'
import { recordRow } from '../support/fault-rows.ts'
import { fillRounds } from '../support/full-disk.ts'

const ROUNDS = 20
const part = 'a disk that is really full'

it(`a service whose disk is filled ${ROUNDS} times tells no act as kept that is not, and goes on when there is room`, async () => {
  const seen = await fillRounds(ROUNDS)
  if (seen === null) {
    const reached = 'not run: no disk may be mounted here'
    console.log(`Row 5, ${part}: ${reached}`)
    recordRow({ row: 5, part, reached, isReached: false, seed: null, count: 0 })
    return
  }
  const { rounds, startsRefused, acked, refused, problems } = seen
  const reached = `${rounds} fillings, ${refused} acts told that the disk is full and kept later, ${acked} told as kept and all there, ${startsRefused} starts refused with a sentence, ${problems.length} with something wrong`
  console.log(reached)
  recordRow({ row: 5, part, reached, isReached: problems.length === 0, seed: null, count: rounds })
  expect(problems).toEqual([])
  expect(refused).toBeGreaterThanOrEqual(ROUNDS * 40)
})
