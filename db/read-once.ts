import type { Database } from 'better-sqlite3'
import { changesOf } from './open.ts'

/** Reads by id, each once until something is written, whatever it is. Within a transaction nothing is kept, since all of it may be undone. */
export function readOnce(db: Database): <Answer>(read: (id: string) => Answer) => (id: string) => Answer {
  const changes = changesOf(db)
  return <Answer>(read: (id: string) => Answer) => {
    let asOf = Number.NaN
    const known = new Map<string, Answer>()
    return (id) => {
      if (db.inTransaction) return read(id)
      const now = changes()
      if (now !== asOf) known.clear()
      asOf = now
      const answer = known.get(id) ?? read(id)
      known.set(id, answer)
      return answer
    }
  }
}
