import type { Database } from 'better-sqlite3'
import type { Stop, Tour } from '../server/tours/tour.ts'
import { noticesFrom, type StopRow, sparesFrom, sparesJson, stopFrom, stopRow } from './tour-rows.ts'

type Heading = Pick<Tour, 'id' | 'version' | 'madeAt' | 'why' | 'value' | 'tookOverAtSeq'>

interface TourRow extends Omit<Tour, 'madeAt' | 'stops' | 'spares' | 'notices'> {
  readonly madeAt: string
  readonly spares: string
  readonly notices: string
}

/** What never changes of a programme. */
type Parts = Pick<Tour, 'stops' | 'spares' | 'notices'>
const MOST_READ = 8

export type TourStore = ReturnType<typeof tourStore>

const COLUMNS = `id, night_id AS nightId, version, made_at AS madeAt, why, seed, steps, inputs_digest AS inputsDigest,
  took_over_at_seq AS tookOverAtSeq, value, seconds, spares, notices,
  (SELECT min(bound) FROM tour_proof WHERE tour_id = tour.id) AS bound`

/** Every statement about programmes. A programme never changes; its bounds are added beside it. */
export function tourStore(db: Database) {
  const byId = db.prepare<[string], TourRow>(`SELECT ${COLUMNS} FROM tour WHERE id = ?`)
  const newest = db.prepare<[string], TourRow>(
    `SELECT ${COLUMNS} FROM tour WHERE night_id = ? ORDER BY version DESC LIMIT 1`,
  )
  const headings = db.prepare<[string], Omit<Heading, 'madeAt'> & { madeAt: string }>(
    `SELECT id, version, made_at AS madeAt, why, value, took_over_at_seq AS tookOverAtSeq FROM tour
    WHERE night_id = ? ORDER BY version`,
  )
  const insert = db.prepare(`
    INSERT INTO tour (id, night_id, version, made_at, why, seed, steps, inputs_digest, took_over_at_seq, value, seconds,
      spares, notices)
    VALUES (@id, @nightId, @version, @madeAt, @why, @seed, @steps, @inputsDigest, @tookOverAtSeq, @value, @seconds,
      @spares, @notices)`)
  const prove = db.prepare<[string, string, number]>(
    'INSERT INTO tour_proof (tour_id, made_at, bound) VALUES (?, ?, ?)',
  )
  const stops = stopStatements(db)

  // Each act and each page asks for the programme that holds, and reading its stops anew would be most of their work.
  const read = new Map<string, Parts>()

  function partsOf({ id, spares, notices }: TourRow): Parts {
    const parts = read.get(id) ?? { stops: stops.of(id), spares: sparesFrom(spares), notices: noticesFrom(notices) }
    read.delete(id)
    read.set(id, parts)
    for (const oldest of [...read.keys()].slice(0, -MOST_READ)) read.delete(oldest)
    return parts
  }
  const whole = (row: TourRow): Tour => ({ ...row, madeAt: new Date(row.madeAt), ...partsOf(row) })

  return {
    find(id: string): Tour | undefined {
      const row = byId.get(id)
      return row && whole(row)
    },
    latest(nightId: string): Tour | undefined {
      const row = newest.get(nightId)
      return row && whole(row)
    },
    versions: (nightId: string): readonly Heading[] =>
      headings.all(nightId).map((row) => ({ ...row, madeAt: new Date(row.madeAt) })),
    /** Keeps a new version whole, with its first bound when there is one. */
    add: db.transaction((tour: Tour): void => {
      const { stops: rows, bound, ...rest } = tour
      const madeAt = tour.madeAt.toISOString()
      insert.run({ ...rest, madeAt, spares: sparesJson(tour.spares), notices: JSON.stringify(tour.notices) })
      stops.put(tour.id, rows)
      if (bound !== null) prove.run(tour.id, madeAt, bound)
    }),
    /** Keeps a limit that was proved at an instant; the least of a programme's limits is its bound. */
    prove: (tourId: string, at: Date, bound: number): void => void prove.run(tourId, at.toISOString(), bound),
  }
}

function stopStatements(db: Database) {
  const ofTour = db.prepare<[string], StopRow>(`
    SELECT station_id AS stationId, target_key AS targetKey, aim, setups, starts_at AS startsAt, ends_at AS endsAt,
      leave_by AS leaveBy, chance, view, looks, reasons FROM stop WHERE tour_id = ? ORDER BY position`)
  const add = db.prepare(`
    INSERT INTO stop (tour_id, position, station_id, target_key, aim, setups, starts_at, ends_at, leave_by, chance, view,
      looks, reasons)
    VALUES (@tourId, @position, @stationId, @targetKey, @aim, @setups, @startsAt, @endsAt, @leaveBy, @chance, @view,
      @looks, @reasons)`)
  return {
    of: (tourId: string): readonly Stop[] => ofTour.all(tourId).map(stopFrom),
    put(tourId: string, stops: readonly Stop[]): void {
      for (const [position, stop] of stops.entries()) add.run({ ...stopRow(stop), tourId, position })
    },
  }
}
