import type { FastifyPluginAsync } from 'fastify'
import { boardRoutes } from './board.ts'
import { checkRoutes } from './check.ts'
import { fieldRoutes } from './field.ts'
import { holeRoutes } from './hole.ts'
import { lineRoutes } from './line.ts'
import type { PageNeeds } from './needs.ts'
import { newcomerRoutes } from './newcomers.ts'
import { nightRoutes } from './nights.ts'
import { objectTonightRoutes } from './object-tonight.ts'
import { objectRoutes } from './objects.ts'
import { ownObjectRoutes } from './own-objects.ts'
import { ownWordRoutes } from './own-words.ts'
import { printRoutes } from './print.ts'
import { programmeRoutes } from './programme.ts'
import { signInRoutes } from './sign-in.ts'
import { siteRoutes } from './sites.ts'
import { telescopeRoutes } from './telescopes.ts'
import { wishRoutes } from './wishes.ts'

const PLUGINS = [
  boardRoutes,
  signInRoutes,
  nightRoutes,
  siteRoutes,
  newcomerRoutes,
  telescopeRoutes,
  programmeRoutes,
  wishRoutes,
  checkRoutes,
  lineRoutes,
  holeRoutes,
  objectTonightRoutes,
  objectRoutes,
  ownObjectRoutes,
  ownWordRoutes,
  printRoutes,
  fieldRoutes,
]

/** Every page for people: one plugin a noun. */
export const pageRoutes: FastifyPluginAsync<PageNeeds> = async (app, needs) => {
  for (const plugin of PLUGINS) await app.register(plugin, needs)
}
