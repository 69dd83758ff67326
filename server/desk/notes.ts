import { Value } from 'typebox/value'
import type { ChecklistStore } from '../../db/checklists.ts'
import type { ClassVisitStore } from '../../db/class-visits.ts'
import type { SiteNoteStore } from '../../db/site-notes.ts'
import type { Clock } from '../clock.ts'
import { notFound, refuse } from '../errors.ts'
import { type ChecklistItem, ChecklistItems, checklistProblems } from '../tours/checklist.ts'
import { SHIPPED_ITEMS } from '../tours/checklist-items.ts'
import { ClassVisit, classVisitProblems, NO_VISIT } from '../tours/class-visit.ts'
import type { Night } from '../tours/night.ts'
import type { Site } from '../tours/site.ts'
import { NO_NOTES, SiteNotes, siteNoteProblems } from '../tours/site-notes.ts'
import { newId } from './ids.ts'

/** The list of a night, what of it is done, and the list of another night that it may take over. */
export interface Checklist {
  readonly items: readonly ChecklistItem[]
  /** True where the host has changed the list that ships. */
  readonly isOwn: boolean
  readonly done: ReadonlySet<string>
  /** The night whose list was changed last; null on a night that has its own, and before the first. */
  readonly earlier: Night | null
}

/** What the host writes down beside the sky: notes of sites, lists of nights, and what was agreed with a school. */
export interface NoteDesk {
  /** What is known of a site; every answer '' where nobody has written any. */
  site(siteId: string): SiteNotes
  keepSite(siteId: string, draft: unknown): void
  checklist(nightId: string): Checklist
  /** Keeps a night's own list; an item without an id is a new one. */
  keepChecklist(nightId: string, draft: readonly object[]): void
  /** Goes back to the list that ships; what is ticked stays ticked. */
  forgetChecklist(nightId: string): void
  /** Takes over the list of the night whose own was changed last. */
  takeOverChecklist(nightId: string): void
  tick(nightId: string, itemId: string, isDone: boolean): void
  visit(nightId: string): ClassVisit
  keepVisit(nightId: string, draft: unknown): void
}

interface NoteNeeds {
  readonly siteNotes: SiteNoteStore
  readonly checklists: ChecklistStore
  readonly classVisits: ClassVisitStore
  readonly findSite: (id: string) => Site
  readonly findNight: (id: string) => Night
  readonly clock: Pick<Clock, 'now'>
}

/** Keeping what the host writes down. */
export function noteDesk(needs: NoteNeeds): NoteDesk {
  const { siteNotes, classVisits, findSite, findNight } = needs
  return {
    site: (siteId) => siteNotes.find(findSite(siteId).id) ?? NO_NOTES,
    keepSite(siteId, draft) {
      refuse(siteNoteProblems(draft))
      siteNotes.put(findSite(siteId).id, Value.Parse(SiteNotes, draft))
    },
    visit: (nightId) => classVisits.find(findNight(nightId).id) ?? NO_VISIT,
    keepVisit(nightId, draft) {
      refuse(classVisitProblems(draft))
      classVisits.put(findNight(nightId).id, Value.Parse(ClassVisit, draft))
    },
    ...checklistPart(needs),
  }
}

type ChecklistPart = 'checklist' | 'keepChecklist' | 'forgetChecklist' | 'takeOverChecklist' | 'tick'

function checklistPart({ checklists, findNight, clock }: NoteNeeds): Pick<NoteDesk, ChecklistPart> {
  const earlier = (nightId: string): Night | null => {
    const newest = checklists.newestBut(nightId)
    return newest === undefined ? null : findNight(newest)
  }
  const checklist = (nightId: string): Checklist => {
    const { id } = findNight(nightId)
    const own = checklists.find(id)
    return {
      items: own ?? SHIPPED_ITEMS,
      isOwn: own !== undefined,
      done: new Set(checklists.ticks(id)),
      earlier: own === undefined ? earlier(id) : null,
    }
  }
  return {
    checklist,
    keepChecklist(nightId, draft) {
      const { id } = findNight(nightId)
      const named = draft.map((item) => ({ id: newId(), ...item }))
      refuse(checklistProblems(named))
      checklists.put(id, Value.Parse(ChecklistItems, named), clock.now())
    },
    forgetChecklist: (nightId) => checklists.remove(findNight(nightId).id),
    takeOverChecklist(nightId) {
      const { id } = findNight(nightId)
      const from = checklists.newestBut(id)
      const items = from === undefined ? undefined : checklists.find(from)
      if (items === undefined) throw notFound('checklist')
      checklists.put(id, items, clock.now())
    },
    tick(nightId, itemId, isDone) {
      if (!checklist(nightId).items.some(({ id }) => id === itemId)) throw notFound('item')
      checklists.tick(nightId, itemId, isDone)
    },
  }
}
