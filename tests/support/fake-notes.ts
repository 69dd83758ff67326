import { noteDesk } from '../../server/desk/notes.ts'
import type { ChecklistItem } from '../../server/tours/checklist.ts'
import type { ClassVisit } from '../../server/tours/class-visit.ts'
import type { Night } from '../../server/tours/night.ts'
import type { Site } from '../../server/tours/site.ts'
import type { SiteNotes } from '../../server/tours/site-notes.ts'

interface Finding {
  readonly site: (id: string) => Site
  readonly night: (id: string) => Night
}

/** Notes, lists and visits over stores in memory. */
export function fakeNotes({ site, night }: Finding, now: Date) {
  const notes = new Map<string, SiteNotes>()
  const visits = new Map<string, ClassVisit>()
  const lists = new Map<string, readonly ChecklistItem[]>()
  const ticked = new Map<string, Set<string>>()
  const ticks = (id: string) => ticked.get(id) ?? ticked.set(id, new Set()).get(id) ?? new Set()
  return noteDesk({
    findSite: site,
    findNight: night,
    clock: { now: () => now },
    siteNotes: { find: (id) => notes.get(id), put: (id, kept) => void notes.set(id, kept) },
    classVisits: { find: (id) => visits.get(id), put: (id, kept) => void visits.set(id, kept) },
    checklists: {
      find: (id) => lists.get(id),
      newestBut: (id) => [...lists.keys()].filter((key) => key !== id).at(-1),
      put: (id, items) => void lists.set(id, items),
      remove: (id) => void lists.delete(id),
      ticks: (id) => [...ticks(id)],
      tick: (id, item, isDone) => void (isDone ? ticks(id).add(item) : ticks(id).delete(item)),
    },
  })
}
