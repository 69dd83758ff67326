import type { Database } from 'better-sqlite3'
import { checklistStore } from '../../db/checklists.ts'
import { classVisitStore } from '../../db/class-visits.ts'
import { dateRuleStore } from '../../db/date-rules.ts'
import { goStore } from '../../db/go.ts'
import { markStore } from '../../db/marks.ts'
import { newcomerStore } from '../../db/newcomers.ts'
import { nightStore } from '../../db/nights.ts'
import { ownObjectStore } from '../../db/own-objects.ts'
import { ownWordStore } from '../../db/own-words.ts'
import { phoneStore } from '../../db/phones.ts'
import { reportStore } from '../../db/reports.ts'
import { settingStore } from '../../db/settings.ts'
import { siteNoteStore } from '../../db/site-notes.ts'
import { siteStore } from '../../db/sites.ts'
import { telescopeStore } from '../../db/telescopes.ts'
import { tourStore } from '../../db/tours.ts'
import { wishStore } from '../../db/wishes.ts'

export type Stores = ReturnType<typeof openStores>

/** Every store of the host's own things over one database. */
export function openStores(db: Database) {
  const sites = siteStore(db)
  const telescopes = telescopeStore(db)
  return {
    sites,
    telescopes,
    nights: nightStore(db, sites, telescopes),
    tours: tourStore(db),
    checklists: checklistStore(db),
    classVisits: classVisitStore(db),
    dateRules: dateRuleStore(db),
    go: goStore(db),
    marks: markStore(db),
    newcomers: newcomerStore(db),
    ownObjects: ownObjectStore(db),
    ownWords: ownWordStore(db),
    phones: phoneStore(db),
    reports: reportStore(db),
    settings: settingStore(db),
    siteNotes: siteNoteStore(db),
    wishes: wishStore(db),
  }
}
