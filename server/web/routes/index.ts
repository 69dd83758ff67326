import type { FastifyPluginAsync } from 'fastify'
import { againRoutes } from './again.ts'
import { alignRoutes } from './align.ts'
import { aloudRoutes } from './aloud.ts'
import { backupRoutes } from './backups.ts'
import { boardRoutes } from './board.ts'
import { carryRoutes } from './carry.ts'
import { checkRoutes } from './check.ts'
import { checklistRoutes } from './checklists.ts'
import { classVisitRoutes } from './class-visit.ts'
import { dateRoutes } from './dates.ts'
import { faultRoutes } from './faults.ts'
import { fieldRoutes } from './field.ts'
import { goLimitRoutes, goRoutes } from './go.ts'
import { holeRoutes } from './hole.ts'
import { joinRoutes } from './join.ts'
import { lineRoutes } from './line.ts'
import { linePageRoutes } from './line-page.ts'
import type { PageNeeds } from './needs.ts'
import { newcomerRoutes } from './newcomers.ts'
import { nightRoutes } from './nights.ts'
import { objectTonightRoutes } from './object-tonight.ts'
import { objectRoutes } from './objects.ts'
import { ownObjectRoutes } from './own-objects.ts'
import { ownWordRoutes } from './own-words.ts'
import { phoneRoutes } from './phones.ts'
import { printRoutes } from './print.ts'
import { programmeRoutes } from './programme.ts'
import { readingRoutes } from './reading.ts'
import { reportRoutes } from './report.ts'
import { seasonRoutes } from './season.ts'
import { setUpRoutes } from './set-up.ts'
import { signInRoutes } from './sign-in.ts'
import { siteNoteRoutes } from './site-notes.ts'
import { siteRoutes } from './sites.ts'
import { startRoutes } from './start.ts'
import { telescopeRoutes } from './telescopes.ts'
import { tonightRoutes } from './tonight.ts'
import { wishRoutes } from './wishes.ts'

const PLUGINS = [
  boardRoutes,
  backupRoutes,
  signInRoutes,
  joinRoutes,
  phoneRoutes,
  nightRoutes,
  startRoutes,
  dateRoutes,
  siteRoutes,
  siteNoteRoutes,
  checklistRoutes,
  classVisitRoutes,
  newcomerRoutes,
  telescopeRoutes,
  programmeRoutes,
  againRoutes,
  wishRoutes,
  checkRoutes,
  lineRoutes,
  holeRoutes,
  goRoutes,
  goLimitRoutes,
  readingRoutes,
  reportRoutes,
  seasonRoutes,
  carryRoutes,
  aloudRoutes,
  faultRoutes,
  alignRoutes,
  setUpRoutes,
  objectTonightRoutes,
  objectRoutes,
  ownObjectRoutes,
  ownWordRoutes,
  printRoutes,
  fieldRoutes,
  linePageRoutes,
  tonightRoutes,
]

/** Every page for people: one plugin a noun. */
export const pageRoutes: FastifyPluginAsync<PageNeeds> = async (app, needs) => {
  for (const plugin of PLUGINS) await app.register(plugin, needs)
}
