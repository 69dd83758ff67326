import { expect, it } from 'vitest'
import { eveningIn } from '../bench/evening.ts'
import { freshFolder, removeFolder } from '../support/desk-folder.ts'
import { recordRow } from '../support/fault-rows.ts'
import { placeOf, serveFolder } from '../support/served-service.ts'
import { type Soaked, soak, speedOf } from '../support/soak.ts'
import { LONG_NIGHT_BEGINS, longNight } from '../support/soak-evening.ts'

const MINUTES = Number(process.env.MINUTES ?? 30)
const PLAN = { minutes: MINUTES, pages: 500, operators: 40 }
const PORT = 18_451
const MOST_GROWTH = 0.2
const LONGEST_DELAY_MS = 100
/** Of descriptors beside the first look: a copy of the database may be under way, a phone may be asking. */
const MOST_MORE_FILES = 4

/** Descriptors that came and stayed: at the end of the night against its beginning, while no page is open. */
const moreFiles = ({ resting }: Soaked): number => {
  const [first, last] = [resting[0], resting.at(-1)]
  return first && last ? last.others - first.others : Number.NaN
}

it(`the service lasts a night of eight hours, in ${MINUTES} minutes`, async () => {
  const folder = freshFolder()
  const evening = await eveningIn(folder, { evening: longNight })
  const service = await serveFolder(folder, PORT, '--clock', LONG_NIGHT_BEGINS, '--speed', String(speedOf(PLAN)))
  try {
    const seen = await soak(service, await placeOf(service, evening.night.id), evening, PLAN)
    const { failures, resting, ...told } = seen
    console.log(JSON.stringify({ ...told, failures: failures.slice(0, 40), first: resting[0], last: resting.at(-1) }))
    const { settled, end, peak } = seen.memoryMb
    const [growth, more] = [end / settled - 1, moreFiles(seen)]
    const broken = failures.filter((failure) => !/^[34]/.test(failure))
    recordRow({
      row: 12,
      reached:
        `${MINUTES} min, ${seen.acts} acts, ${seen.lost.length} lost, ${seen.unheard} not heard just once by a page, ` +
        `${seen.storms} storms, ${broken.length} failures, memory ${settled.toFixed(0)} MB to ${end.toFixed(0)} MB ` +
        `(${(growth * 100).toFixed(0)} %, peak ${peak.toFixed(0)}), ${more} more open files, ` +
        `event loop p99 ${seen.loop.p99Ms.toFixed(0)} ms, slowest ${seen.loop.maxMs.toFixed(0)} ms`,
      isReached:
        MINUTES >= 30 &&
        seen.lost.length + seen.unheard + broken.length === 0 &&
        growth < MOST_GROWTH &&
        more <= MOST_MORE_FILES &&
        seen.loop.p99Ms < LONGEST_DELAY_MS,
      seed: null,
      count: seen.acts,
    })
    expect(seen.lost).toEqual([])
    expect(seen.unheard).toBe(0)
    expect(failures.filter((failure) => failure.startsWith('5'))).toEqual([])
  } finally {
    await service.stop()
    removeFolder(folder)
  }
})
