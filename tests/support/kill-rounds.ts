import { setTimeout as wait } from 'node:timers/promises'
import { seededRandom } from '../../server/sky/random.ts'
import { type CrowdedNight, crowdedNight, EVENING } from './crowded-night.ts'
import { removeFolder } from './desk-folder.ts'
import { killedField } from './killed-field.ts'
import { ended, startService } from './running-service.ts'

const PHONES = 40
/** A night of some thousand acts, as a busy one has. */
const KILLS_A_NIGHT = 15
/** One kill in so many comes while the service opens, when it mends what the kill before has left. */
const IN_OPENING = 10
const LONGEST_OPENING_MS = 2_000
/** The others come after so many answers at least, and up to so many more. */
const [LEAST_ANSWERS, MORE_ANSWERS] = [60, 180]
const LONGEST_COMMIT_MS = 10

/** What was seen of a service that was killed again and again. */
interface Killed {
  readonly kills: number
  /** Of them, those that came while the service was opening. */
  readonly inOpening: number
  readonly acked: number
  /** Acts that were on their way at a kill and sent again after it. */
  readonly sentAgain: number
  /** How long from each start to the first act that was answered as kept. */
  readonly firstAnswersMs: readonly number[]
  /** Every mark that is lost, invented, doubled or changed, and everything else that is wrong, in words. */
  readonly problems: readonly string[]
}

/**
 * Kills the service at random moments while forty phones send acts, which each sends again until it is answered, and
 * looks after each start at what the service holds.
 */
export async function killRounds(kills: number, seed: number): Promise<Killed> {
  const random = seededRandom(seed)
  const firstAnswersMs: number[] = []
  const problems: string[] = []
  const sums = { inOpening: 0, acked: 0, sentAgain: 0 }
  for (let done = 0; done < kills; ) {
    const night = await crowdedNight(PHONES)
    const field = killedField(night)
    for (let inNight = 0; inNight < KILLS_A_NIGHT && done < kills; inNight++) {
      done += 1
      if (done % IN_OPENING === 0) {
        sums.inOpening += 1
        await killOpening(night, random() * LONGEST_OPENING_MS)
      } else {
        const answers = LEAST_ANSWERS + Math.floor(random() * MORE_ANSWERS)
        firstAnswersMs.push(await field.killAfter(answers, random() * LONGEST_COMMIT_MS))
      }
    }
    firstAnswersMs.push(await field.finish())
    sums.acked += field.counts().acked
    sums.sentAgain += field.counts().sentAgain
    problems.push(...field.problems.map((problem) => `in the night up to kill ${done}: ${problem}`))
    removeFolder(night.folder)
  }
  return { kills, ...sums, firstAnswersMs, problems }
}

async function killOpening({ folder }: CrowdedNight, afterMs: number): Promise<void> {
  const { child } = startService(folder, ['--clock', EVENING])
  await wait(afterMs)
  await ended(child)
}
