import { rmSync } from 'node:fs'
import { expect, it } from 'vitest'
import { seededRandom } from '../../server/sky/random.ts'
import { paceOfMarks } from '../support/backup-pace.ts'
import { bundleDrill, drill, type Kill, longNight } from '../support/backup-rounds.ts'
import { recordRow } from '../support/fault-rows.ts'

const ROUNDS = Number(process.env.ROUNDS ?? 200)
const SEED = Number(process.env.SEED ?? 20261217)
/** Of the thread's start and the copying of some megabytes. */
const LONGEST_COPY_MS = 150
const TIMES_SLOWER = 2
/** Acts of a busy night, and of a folder that has seen ten of them. */
const DATABASES = [2_000, 20_000]

function killOf(random: () => number, round: number): Kill {
  const atCopy = round % 2 === 0 ? 1 + Math.floor(random() * 3) : null
  return { atCopy, afterMs: Math.floor(random() * LONGEST_COPY_MS), atAck: 60 + Math.floor(random() * 300) }
}

it(`a killed service loses ten minutes at most, and nothing once phones have sent again (${ROUNDS} rounds, SEED=${SEED})`, async () => {
  const removeBundle = await bundleDrill()
  const template = await longNight()
  const random = seededRandom(SEED)
  const sums = { acked: 0, copies: 0, lost: 0, killedInCopy: 0, mostLostMin: 0 }
  const problems: string[] = []
  for (let round = 0; round < ROUNDS; round++) {
    const kill = killOf(random, round)
    const seen = await drill(template, kill)
    problems.push(...seen.problems.map((problem) => `round ${round} (${JSON.stringify(kill)}): ${problem}`))
    sums.acked += seen.acked
    sums.copies += seen.copies
    sums.lost += seen.lost
    sums.killedInCopy += seen.unfinished > 0 ? 1 : 0
    sums.mostLostMin = Math.max(sums.mostLostMin, seen.lostMs / 60_000)
  }
  rmSync(template, { recursive: true, force: true })
  removeBundle()
  console.log(`SEED=${SEED}: ${ROUNDS} rounds, ${JSON.stringify(sums)}`)
  recordRow({
    row: 10,
    part: 'drills',
    reached: `${ROUNDS} drills, ${problems.length} problems, at most ${sums.mostLostMin} min lost until phones sent again`,
    isReached: ROUNDS >= 200 && problems.length === 0,
    seed: SEED,
    count: ROUNDS,
  })
  expect(problems).toEqual([])
})

it.each(DATABASES)('marks are hardly slower while copies are made one after the other (%i acts)', async (acts) => {
  const pace = await paceOfMarks(acts, 10, 300)
  console.log(`Marks beside ${acts} others while copies are made: ${JSON.stringify(pace)}`)
  const slower = pace.copyingP99Ms / pace.calmP99Ms
  recordRow({
    row: 10,
    part: `pace with ${acts} acts`,
    reached: `slowest hundredth of marks ${slower.toFixed(2)} times as slow while copies are made one after the other`,
    isReached: slower <= TIMES_SLOWER,
    seed: null,
    count: pace.marks,
  })
  expect(pace.copies).toBeGreaterThan(10)
})
