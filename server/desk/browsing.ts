import type { ChecklistStore } from '../../db/checklists.ts'
import type { ClassVisitStore } from '../../db/class-visits.ts'
import type { SettingStore } from '../../db/settings.ts'
import type { SiteNoteStore } from '../../db/site-notes.ts'
import { type DateNeeds, dateDesk } from './dates.ts'
import type { Desk } from './desk.ts'
import { groupTextDesk } from './group-text.ts'
import { noteDesk } from './notes.ts'
import { readingDesk } from './reading.ts'
import { type ThingNeeds, thingDesk } from './things.ts'

type Needs = ThingNeeds &
  DateNeeds & {
    readonly settings: SettingStore
    readonly siteNotes: SiteNoteStore
    readonly checklists: ChecklistStore
    readonly classVisits: ClassVisitStore
  }

/** What is asked of the list and of the year, what the group says of itself, and what the host writes down. */
export const browsing = (needs: Needs): Pick<Desk, 'things' | 'dates' | 'groupText' | 'reading' | 'notes'> => ({
  things: thingDesk(needs),
  dates: dateDesk(needs),
  groupText: groupTextDesk(needs),
  reading: readingDesk(needs),
  notes: noteDesk({ ...needs, findSite: needs.sites.find, findNight: needs.nights.find }),
})
