import type { Desk } from '../../server/desk/desk.ts'
import type { Night } from '../../server/tours/night.ts'
import { openDesk, standingClock } from '../support/desk-folder.ts'
import { ababa, type Beside, MOST_SPREAD } from './ababa.ts'
import { syncsPerSecond } from './baseline-fdatasync.ts'
import { actOf, BEGINS, FULL, onEvening } from './evening.ts'
import { medianOf } from './median.ts'

export const ASKED_OF_MARKS = 0.5

interface MarkSpeed extends Beside {
  readonly marks: number
}

/**
 * How many acts a second the desk keeps, one after the other, each on the disk (FULL) before it is answered, beside a
 * raw loop that appends and syncs in the same folder. Before the times are told, every act must be there, once.
 */
export async function markSpeed(ms: number, rounds: number): Promise<MarkSpeed> {
  return onEvening(FULL, async ({ night }, folder) => {
    const desk = await openDesk(folder, { clock: standingClock(BEGINS) })
    try {
      const before = desk.marks.since(night.id, 0).length
      let kept = 0
      const keep = (): number => {
        const { count, perSecond } = keptPerSecond(desk, night, kept, ms)
        kept += count
        return perSecond
      }
      const beside = await ababa(() => syncsPerSecond(folder, ms), { mark: keep }, rounds)
      const there = desk.marks.since(night.id, 0).length - before
      if (there !== kept) throw new Error(`${kept} acts were told as kept, ${there} are there`)
      return { ...beside, marks: kept }
    } finally {
      await desk.close()
    }
  })
}

function keptPerSecond(desk: Desk, night: Night, from: number, ms: number) {
  const beganMs = performance.now()
  let count = 0
  while (performance.now() - beganMs < ms) {
    const draft = actOf(`speed-mark-${from + count}`, night, from + count)
    desk.marks.record(night.id, [draft], 'Mirela', 'operator')
    count++
  }
  return { count, perSecond: (count * 1000) / (performance.now() - beganMs) }
}

export async function benchMarks(): Promise<void> {
  console.log(toldOfMarks(await markSpeed(2_000, 3)))
}

export const toldOfMarks = ({ yardstick, spread, ratios, marks }: MarkSpeed): string =>
  `marks, each on the disk before it is answered: ${medianOf(ratios.mark ?? []).toFixed(2)} of a raw loop of 4 KiB and ` +
  `fdatasync in the same folder, ${medianOf(yardstick).toFixed(0)} a second (asked ${ASKED_OF_MARKS}; spread ` +
  `${(100 * spread).toFixed(0)} %${spread > MOST_SPREAD ? ', TOO UNEVEN to tell' : ''}; ${marks} marks, none lost)`
