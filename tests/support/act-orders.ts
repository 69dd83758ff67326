import { isDeepStrictEqual } from 'node:util'
import type { Database } from 'better-sqlite3'
import { migrate } from '../../db/migrate.ts'
import { openDatabase } from '../../db/open.ts'
import type { MarkDesk } from '../../server/desk/marks.ts'
import { openStores } from '../../server/desk/stores.ts'
import { Fault } from '../../server/errors.ts'
import { seededRandom } from '../../server/sky/random.ts'
import type { Tour } from '../../server/tours/tour.ts'
import { bareMarks } from './bare-marks.ts'
import { standingClock } from './desk-folder.ts'
import { type DrawnNight, drawnNight, type Sending, STARTS_MS } from './drawn-acts.ts'
import { A_NIGHT, A_SITE, A_TELESCOPE, A_TOUR } from './field-data.ts'
import { plainNight } from './plain-night.ts'

/** What many sequences of acts have shown. */
interface OrdersSeen {
  readonly sequences: number
  readonly sendings: number
  /** Acts that came in, replays and refused ones with them. */
  readonly arrivals: number
  readonly kept: number
  readonly refused: number
  readonly undos: number
  /** How often the state of the field was asked and compared. */
  readonly asked: number
  readonly problems: readonly string[]
}

const MOST_PROBLEMS = 20

/** Lets sequences of acts come in, late, again and in any order, and compares database and fold with a plain model. */
export function playOrders(count: number, seed: number, folder = ':memory:'): OrdersSeen {
  const db = openDatabase(folder)
  const play = player(db)
  const sums = { sequences: 0, sendings: 0, arrivals: 0, kept: 0, refused: 0, undos: 0, asked: 0 }
  const problems: string[] = []
  for (let i = 0; i < count && problems.length < MOST_PROBLEMS; i++) {
    const seen = play(drawnNight(seededRandom(seed + i), `s${seed + i}`))
    problems.push(...seen.problems.map((problem) => `SEED=${seed + i}: ${problem}`))
    for (const name of ['sendings', 'arrivals', 'kept', 'refused', 'undos', 'asked'] as const) sums[name] += seen[name]
    sums.sequences += 1
  }
  db.close()
  return { ...sums, problems }
}

/** A service's marks over a database in which each sequence has a night of its own. */
function player(db: Database) {
  migrate(db)
  const stores = openStores(db)
  stores.sites.add(A_SITE)
  stores.telescopes.add(A_TELESCOPE)
  const clock = standingClock(new Date(STARTS_MS).toISOString())
  const tours = new Map<string, Tour>()
  const programme = (nightId: string) => tours.get(nightId)
  const newDesk = () => bareMarks(stores, clock, programme)
  const rows = db.prepare<[string], { seq: number; key: string }>(
    'SELECT seq, key FROM mark WHERE night_id = ? ORDER BY seq',
  )
  const desk = newDesk()

  return (night: DrawnNight) => {
    const { id, stationIds, stops } = night
    const [station] = A_NIGHT.stations
    if (!station) throw new Error('The night of the tests has no station')
    stores.nights.add({ ...A_NIGHT, id, stations: stationIds.map((stationId) => ({ ...station, id: stationId })) })
    if (stops.length > 0) tours.set(id, { ...A_TOUR, id: `tour-${id}`, nightId: id, stops, spares: [] })
    const model = plainNight(stationIds, stops)
    const seen = { sendings: 0, arrivals: 0, kept: 0, refused: 0, undos: 0, asked: 0, problems: [] as string[] }

    function compareField(of: MarkDesk, who: string, ms: number): void {
      clock.moveTo(new Date(ms).toISOString())
      const { seq, ...told } = of.field(id)
      seen.asked += 1
      if (!isDeepStrictEqual(told, model.field(ms)))
        seen.problems.push(`${who}: ${JSON.stringify({ told, wanted: model.field(ms) })}`)
      if (seq !== (rows.all(id).at(-1)?.seq ?? 0)) seen.problems.push(`${who}: ${seq} is not the newest mark`)
    }

    for (const sending of night.sendings) {
      clock.moveTo(new Date(sending.clockMs).toISOString())
      const wanted = verdictsOf(sending, model.comes)
      const told = send(desk, id, sending)
      if (!isDeepStrictEqual(told, wanted)) seen.problems.push(`Answered ${JSON.stringify({ told, wanted })}`)
      seen.sendings += 1
      seen.arrivals += sending.acts.length
      seen.kept += wanted.kept.length
      seen.refused += wanted.refused.length
      compareField(desk, 'The desk', sending.clockMs)
    }
    const keys = rows.all(id).map(({ key }) => key)
    if (!isDeepStrictEqual(keys, model.keys())) seen.problems.push(`Kept ${keys}, not ${model.keys()}`)
    seen.undos += keys.filter((key) => night.undoKeys.has(key)).length
    for (const ms of night.askedMs) compareField(newDesk(), 'A desk opened later', ms)
    tours.delete(id)
    return seen
  }
}

const draftOf = ({ key, kind, stationId, payload }: Sending['acts'][number], secondsAgo: number) => ({
  key,
  kind,
  stationId,
  payload,
  secondsAgo,
})

function send(desk: MarkDesk, nightId: string, { role, clockMs, acts }: Sending) {
  const drafts = acts.map((act) => draftOf(act, (clockMs - act.atMs) / 1000))
  try {
    const { kept, refused } = desk.record(nightId, drafts, 'Adaeze', role)
    return { kept: kept.map(({ key }) => key), refused: refused.map(({ key }) => key) }
  } catch (error) {
    if (!(error instanceof Fault) || error.code !== 'invalid') throw error
    return { kept: [], refused: acts.map(({ key }) => key) }
  }
}

function verdictsOf({ role, acts }: Sending, comes: ReturnType<typeof plainNight>['comes']) {
  const verdicts = acts.map((act) => ({ key: act.key, isKept: comes(act, role) }))
  const keysOf = (isKept: boolean) => verdicts.filter((one) => one.isKept === isKept).map(({ key }) => key)
  return { kept: keysOf(true), refused: keysOf(false) }
}
