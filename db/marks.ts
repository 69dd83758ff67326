import type { Database } from 'better-sqlite3'
import { Type } from 'typebox'
import { Compile } from 'typebox/compile'
import { MARK_KINDS, type Mark, type MarkKind } from '../server/tours/mark.ts'

interface MarkRow {
  readonly seq: number
  readonly key: string
  readonly nightId: string
  readonly stationId: string | null
  readonly kind: string
  readonly payload: string
  readonly by: string
  readonly receivedAt: string
  readonly happenedAt: string
}

export type MarkStore = ReturnType<typeof markStore>

const COLUMNS = `seq, key, night_id AS nightId, station_id AS stationId, kind, payload, by, received_at AS receivedAt,
  happened_at AS happenedAt`
const kindIn = Compile(Type.Unsafe<MarkKind>(Type.Union(MARK_KINDS.map((kind) => Type.Literal(kind)))))
const payloadIn = Compile(Type.Record(Type.String(), Type.Unknown()))

/** Every statement about marks. Marks are only ever added. */
export function markStore(db: Database) {
  const byKey = db.prepare<[string], MarkRow>(`SELECT ${COLUMNS} FROM mark WHERE key = ?`)
  const home = db.prepare<[string], string>('SELECT night_id FROM mark WHERE key = ?').pluck()
  const after = db.prepare<[string, number], MarkRow>(
    `SELECT ${COLUMNS} FROM mark WHERE night_id = ? AND seq > ? ORDER BY seq`,
  )
  const newest = db.prepare<[string], number | null>('SELECT max(seq) FROM mark WHERE night_id = ?').pluck()
  const insert = db.prepare<[Record<string, string | null>]>(`
    INSERT INTO mark (key, night_id, station_id, kind, payload, by, received_at, happened_at)
    VALUES (@key, @nightId, @stationId, @kind, @payload, @by, @receivedAt, @happenedAt)
    ON CONFLICT (key) DO NOTHING`)

  return {
    find(key: string): Mark | undefined {
      const row = byKey.get(key)
      return row && markOf(row)
    },
    /** The night whose mark has this key, without reading the mark. */
    nightOf: (key: string): string | undefined => home.get(key),
    /** The night's marks with a higher `seq`, in order. */
    since: (nightId: string, seq: number): readonly Mark[] => after.all(nightId, seq).map(markOf),
    /** The `seq` of the night's newest mark; 0 when it has none. */
    newestSeq: (nightId: string): number => newest.get(nightId) ?? 0,
    /** Runs `work` so that all it keeps is kept, or nothing of it. */
    together: <Result>(work: () => Result): Result => db.transaction(work).immediate(),
    /** Keeps a mark unless its key is kept already; answers the kept one. */
    keep(mark: Omit<Mark, 'seq'>): Mark {
      insert.run(rowOf(mark))
      const row = byKey.get(mark.key)
      if (!row) throw new Error(`Mark ${mark.key} was not kept`)
      return markOf(row)
    },
  }
}

const rowOf = (mark: Omit<Mark, 'seq'>): Record<string, string | null> => ({
  key: mark.key,
  nightId: mark.nightId,
  stationId: mark.stationId,
  kind: mark.kind,
  payload: JSON.stringify(mark.payload),
  by: mark.by,
  receivedAt: mark.receivedAt.toISOString(),
  happenedAt: mark.happenedAt.toISOString(),
})

const markOf = (row: MarkRow): Mark => ({
  ...row,
  kind: kindIn.Parse(row.kind),
  payload: payloadIn.Parse(JSON.parse(row.payload)),
  receivedAt: new Date(row.receivedAt),
  happenedAt: new Date(row.happenedAt),
})
