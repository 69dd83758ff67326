import { rowInFile } from '../../server/desk/carry-out.ts'
import type { Desk } from '../../server/desk/desk.ts'
import { invalid } from '../../server/errors.ts'
import { readNightFile, readThingsFile } from '../../server/tours/file-text.ts'
import { FIRST_PLAN } from '../../server/tours/go-plan.ts'
import type { Night } from '../../server/tours/night.ts'
import { FILE_VERSION, NIGHT_FORMAT, type NightFile, THINGS_FORMAT } from '../../server/tours/night-file.ts'

const NOTHING = { nightId: null, isNewNight: false, marks: 0, programmes: 0, parts: 0, differs: [] }

/** The file of a night of which nothing is known but itself. */
function bareFile(night: Night, now: Date): NightFile {
  return {
    format: NIGHT_FORMAT,
    version: FILE_VERSION,
    savedAt: now.toISOString(),
    site: { ...night.site, horizon: [...night.site.horizon], glow: [...night.site.glow] },
    siteNotes: null,
    ...rowInFile(() => night.stations, night),
    ...{ things: [], ownWords: [], wishes: [], programmes: [], marks: [] },
    go: { readings: [], decisions: [], plan: FIRST_PLAN, sentence: { sentence: '', facts: '' } },
    checklist: { items: null, ticks: [] },
    classVisit: null,
    report: { edits: null, closing: null },
  }
}

/** Reads files as the real desk does and keeps nothing of them. */
export const fakeCarry = (night: (id: string) => Night, now: Date): Desk['carry'] => ({
  nightFile: (id) => bareFile(night(id), now),
  thingsFile: () => ({
    format: THINGS_FORMAT,
    version: FILE_VERSION,
    savedAt: now.toISOString(),
    things: [],
    ownWords: [],
  }),
  bringNight(text) {
    const read = readNightFile(text)
    if ('problems' in read) throw invalid(read.problems)
    return { ...NOTHING, nightId: read.file.night.id }
  },
  bringThings(text) {
    const read = readThingsFile(text)
    if ('problems' in read) throw invalid(read.problems)
    return NOTHING
  },
})
