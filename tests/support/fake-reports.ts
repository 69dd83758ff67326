import type { NightClosing } from '../../db/reports.ts'
import type { Desk } from '../../server/desk/desk.ts'
import { reportDesk } from '../../server/desk/reports.ts'
import type { Mark } from '../../server/tours/mark.ts'
import type { Night, NightState } from '../../server/tours/night.ts'
import { nightFacts } from '../../server/tours/report.ts'
import type { ReportEdits } from '../../server/tours/report-edits.ts'
import type { Tour } from '../../server/tours/tour.ts'
import { nothingKnown } from './go-data.ts'

interface Known {
  readonly nights: Night[]
  readonly tours: readonly Tour[]
  readonly marks: readonly Mark[]
}

/** The real desk over lists in memory, which reckons without a worker. */
export function fakeReports(kept: Known, night: (id: string) => Night, now: Date): Desk['reports'] {
  const edits = new Map<string, ReportEdits>()
  const closings = new Map<string, NightClosing>()
  const setState = (id: string, state: NightState): void => {
    kept.nights.splice(kept.nights.indexOf(night(id)), 1, { ...night(id), state })
  }
  return reportDesk({
    reports: {
      edits: (id) => edits.get(id),
      putEdits: (id, draft) => void edits.set(id, draft),
      closing: (id) => closings.get(id),
      close(id, stateBefore, closedAt) {
        closings.set(id, { stateBefore, closedAt })
        setState(id, 'closed')
      },
      open(id) {
        setState(id, closings.get(id)?.stateBefore ?? 'planned')
        closings.delete(id)
      },
    },
    nights: { all: () => kept.nights, everyStation: (id) => night(id).stations },
    findNight: night,
    tours: {
      versions: (id) => kept.tours.filter(({ nightId }) => nightId === id),
      find: (id) => kept.tours.find((tour) => tour.id === id),
    },
    log: { all: (id) => kept.marks.filter(({ nightId }) => nightId === id) },
    goOf: (id) => nothingKnown(night(id)),
    reckon: async (input) => nightFacts(input),
    clock: { now: () => now, isRehearsal: true, speed: 1 },
  })
}
