import type { Database } from 'better-sqlite3'
import { Type } from 'typebox'
import { TELESCOPE_KINDS } from '../server/tours/target.ts'
import type { Wish } from '../server/tours/wish.ts'
import { fromJson } from './json.ts'

interface WishRow extends Omit<Wish, 'things'> {
  readonly things: string
}

export type WishStore = ReturnType<typeof wishStore>

const Things = Type.Array(Type.Union(TELESCOPE_KINDS.map((kind) => Type.Literal(kind))))

/** Every statement about what hosts wish of the programmes of a night. */
export function wishStore(db: Database) {
  const ofNight = db.prepare<[string], WishRow>(`
    SELECT id, kind, station_id AS stationId, target_key AS targetKey, aim, starts_at AS startsAt, ends_at AS endsAt, things
    FROM wish WHERE night_id = ? ORDER BY position`)
  const insert = db.prepare<[WishRow & { readonly nightId: string }]>(`
    INSERT INTO wish (id, night_id, position, kind, station_id, target_key, aim, starts_at, ends_at, things)
    VALUES (@id, @nightId, (SELECT coalesce(max(position), 0) + 1 FROM wish WHERE night_id = @nightId), @kind, @stationId,
      @targetKey, @aim, @startsAt, @endsAt, @things)`)
  const remove = db.prepare<[string, string]>('DELETE FROM wish WHERE night_id = ? AND id = ?')

  return {
    /** The wishes of a night, the oldest first. */
    all: (nightId: string): readonly Wish[] =>
      ofNight.all(nightId).map((row) => ({ ...row, things: fromJson(Things, row.things) })),
    /** Takes some back and keeps others, or neither. */
    change: db.transaction((nightId: string, gone: readonly string[], wishes: readonly Wish[]): void => {
      for (const id of gone) remove.run(nightId, id)
      for (const wish of wishes) insert.run({ ...wish, nightId, things: JSON.stringify(wish.things) })
    }),
    /** False when the night has no such wish. */
    takeBack: (nightId: string, id: string): boolean => remove.run(nightId, id).changes > 0,
  }
}
