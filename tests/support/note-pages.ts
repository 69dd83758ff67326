import type { ChecklistItem } from '../../server/tours/checklist.ts'
import { SHIPPED_ITEMS } from '../../server/tours/checklist-items.ts'
import type { ClassVisit } from '../../server/tours/class-visit.ts'
import { NO_NOTES, type SiteNotes } from '../../server/tours/site-notes.ts'
import { checklistsPage } from '../../server/web/pages/checklists.ts'
import { checklistsForm } from '../../server/web/pages/checklists-form.ts'
import { classVisitPage } from '../../server/web/pages/class-visit.ts'
import type { Pages } from '../../server/web/pages/index.ts'
import { siteNotesForm } from '../../server/web/pages/site-notes-form.ts'
import { A_NIGHT, A_SITE } from './field-data.ts'
import { AN_EVENING, HOST, VISITOR } from './page-data.ts'

export const SOME_NOTES: SiteNotes = {
  ...NO_NOTES,
  lamps: 'Three along the path; the caretaker has the switch.',
  toilets: 'In the hall, open until ten.',
  own: ['Bring the key back to the mill.'],
}

export const A_VISIT: ClassVisit = {
  school: 'Class 4 of the mill school',
  meet: 'At the gate',
  fetch: 'At the bus stop, at half past eight',
  decides: 'Ms Weaver',
  decidesBy: 'noon',
  announced: 'on the door of the school',
  toilets: '',
  warm: 'The hall',
  needs: 'Two chairs',
  adultsPerGroup: 2,
  asksPhotos: true,
}

export const AN_OWN_ITEM: ChecklistItem = {
  id: 'own-1',
  group: 'after',
  text: 'Carry the key back.',
  owner: { role: 'named', name: 'Jo' },
  from: 'closes',
  offsetMin: 40,
}

const BLANK = { values: {}, problems: [] }
const LIST = { items: [...SHIPPED_ITEMS, AN_OWN_ITEM], isOwn: true, done: new Set(['sun']), earlier: null }
const WRONG_LIST = {
  values: { 'items.0.id': 'sun', 'items.1.id': 'own-1', 'items.1.text': 'Key' },
  problems: [{ field: 'items.1.owner.name', key: 'problem.owner-blank' }],
}

type Name = 'checklists' | 'checklists-form' | 'class-visit' | 'site-notes-form'

/** What the host writes down, each page once with all that it can say and once with nothing. */
export const NOTE_PAGES: { readonly [Page in Name]: readonly [full: Pages[Page], empty: Pages[Page]] } = {
  checklists: [
    checklistsPage(HOST, {
      night: A_NIGHT,
      checklist: LIST,
      sunsetAt: AN_EVENING.sunsetAt,
      sunriseAt: null,
      sun: 'sets',
      hasTour: true,
      look: 'lamp',
    }),
    checklistsPage(VISITOR, {
      night: A_NIGHT,
      checklist: { ...LIST, items: [] },
      sunsetAt: null,
      sunriseAt: null,
      sun: 'stays-up',
      hasTour: false,
      look: 'day',
    }),
  ],
  'checklists-form': [
    checklistsForm(HOST, { night: A_NIGHT, hasTour: true, checklist: LIST, rowCount: 3, state: WRONG_LIST }),
    checklistsForm(HOST, {
      night: A_NIGHT,
      hasTour: false,
      checklist: { ...LIST, isOwn: false, earlier: A_NIGHT },
      rowCount: 0,
      state: BLANK,
    }),
  ],
  'class-visit': [
    classVisitPage(HOST, {
      night: A_NIGHT,
      hasTour: true,
      state: { values: {}, problems: [{ field: 'adultsPerGroup', key: 'problem.type' }] },
    }),
    classVisitPage(HOST, { night: A_NIGHT, hasTour: false, state: BLANK }),
  ],
  'site-notes-form': [
    siteNotesForm(HOST, A_SITE, {
      values: {},
      problems: [{ field: 'own', key: 'problem.too-long', values: { maximum: 120 } }],
    }),
    siteNotesForm(HOST, A_SITE, BLANK),
  ],
}
