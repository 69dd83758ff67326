import type { MarkStore } from '../../db/marks.ts'
import type { Mark } from '../tours/mark.ts'

export type MarkLog = ReturnType<typeof markLog>

/** The marks of each night in order, read from the database once: marks are only ever added, and by this process alone. */
export function markLog(marks: Pick<MarkStore, 'since'>) {
  const known = new Map<string, Mark[]>()
  return {
    all(nightId: string): readonly Mark[] {
      const log = known.get(nightId) ?? []
      log.push(...marks.since(nightId, log.at(-1)?.seq ?? 0))
      known.set(nightId, log)
      return log
    },
  }
}
