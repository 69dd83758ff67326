import Fastify from 'fastify'
import { north } from '../../seed-demo/north.ts'
import { seedEvening } from '../../seed-demo/seed.ts'
import { eveningDate } from '../../server/tours/hours.ts'
import { placeOf } from '../../server/tours/site.ts'
import { readWordTables } from '../../server/web/language.ts'
import { PIECE_NAMES, papersPage } from '../../server/web/pages/papers.ts'
import { printPictures } from '../../server/web/pages/print-pictures.ts'
import { namesFrom } from '../../server/web/routes/needs.ts'
import { printed } from '../../server/web/routes/print-subject.ts'
import { pageWriter, readViews } from '../../server/web/views.ts'
import { createWords } from '../../server/words/words.ts'
import { AFTERNOON, freshFolder, openDesk, removeFolder, standingClock } from '../support/desk-folder.ts'
import { HOST } from '../support/page-data.ts'
import { medianMs } from './median.ts'

const words = createWords(readWordTables().en ?? {}, { language: 'en', hours12: false, units: 'metric' })
const viewer = { ...HOST, words }

/** Prints how long each picture of the demo night takes to draw, and all its pieces to write one after the other, the first time they are asked for. */
export async function benchPapers(): Promise<void> {
  const folder = freshFolder()
  const desk = await openDesk(folder, { clock: standingClock(AFTERNOON) })
  try {
    const { id } = seedEvening(desk, north)
    await desk.tours.build(id)
    await writeAll(desk, id)
    await drawAll(desk, id)
  } finally {
    await desk.close()
    removeFolder(folder)
  }
}

type Desk = Awaited<ReturnType<typeof openDesk>>

async function writeAll(desk: Desk, id: string): Promise<void> {
  const app = Fastify()
  await readViews(app)
  const write = pageWriter({ path: (name) => name })
  const beganMs = performance.now()
  for (const name of PIECE_NAMES) {
    const page = await printed(desk, { viewer, id, query: {} }, (subject) => papersPage(viewer, subject, name))
    await write(app, 'papers', page)
  }
  const tookMs = performance.now() - beganMs
  console.log(`papers: all ${PIECE_NAMES.length} pieces of the demo night in ${tookMs.toFixed(0)} ms (demand 3000)`)
}

async function drawAll(desk: Desk, id: string): Promise<void> {
  const [night, tour] = [desk.nights.find(id), desk.tours.current(id)]
  const [opening] = tour?.stops ?? []
  if (tour === undefined || opening === undefined) throw new Error('The demo night has no programme')
  const keys = [...new Set(tour.stops.map(({ targetKey }) => targetKey))]
  const pictures = printPictures(words, {
    night,
    tour,
    evening: desk.sky.evening(eveningDate(night), placeOf(night.site), night.site.zone),
    names: namesFrom(desk, words, id),
    charts: askedOnce(desk.charts),
    walks: await desk.charts.walks(id, keys),
    paper: 'a4',
  })
  const { stops } = tour
  const at = opening.endsAt
  report(
    'fields on sheets',
    ofEach(stops, (stop) => pictures.field(stop, 'column')),
  )
  report(
    'fields on cards',
    ofEach(stops, (stop) => pictures.field(stop, 'card')),
  )
  report(
    'finder charts',
    ofEach(stops, (stop) => pictures.finder(stop, stop.startsAt, null)),
  )
  report('walks over the skyline', ofEach(keys, pictures.walk))
  report('the whole sky', [() => pictures.sky(at)])
  report('the score', [() => pictures.score()])
  const { site } = night
  const asked = ofEach(keys, (key) => desk.charts.finder({ key, site, at, mainFieldDeg: 1 }))
  report('ways to find targets, not drawn', asked)
  report('the stars of the whole sky, not drawn', [() => desk.charts.sky(id, tour, at)])
}

/** What is drawn is reckoned once, so that drawing alone is timed. */
function askedOnce({ sky, finder, starsIn }: Desk['charts']): Pick<Desk['charts'], 'sky' | 'finder' | 'starsIn'> {
  const kept = new Map<string, ReturnType<typeof finder>>()
  let keptSky: ReturnType<typeof sky> | undefined
  return {
    starsIn,
    finder(question) {
      const found = kept.get(question.key) ?? finder(question)
      kept.set(question.key, found)
      return found
    },
    sky(...asked) {
      keptSky ??= sky(...asked)
      return keptSky
    },
  }
}

const ofEach = <Thing>(things: readonly Thing[], draw: (thing: Thing) => unknown): readonly (() => unknown)[] =>
  things.map((thing) => () => draw(thing))

function report(what: string, drawings: readonly (() => unknown)[]): void {
  const worst = Math.max(...drawings.map((draw) => medianMs(draw))).toFixed(1)
  console.log(`papers: ${what}: ${drawings.length}, the slowest in ${worst} ms (demand 20 each)`)
}
