import swagger from '@fastify/swagger'
import type { FastifyPluginAsync } from 'fastify'
import { againRoutes } from './again.ts'
import { alignmentRoutes } from './alignment.ts'
import { besideRoutes } from './beside.ts'
import { checkRoutes } from './checks.ts'
import { dateRoutes } from './dates.ts'
import { goRoutes } from './go.ts'
import { healthRoutes } from './health.ts'
import { holeRoutes } from './hole.ts'
import { joinRoutes } from './join.ts'
import { learningRoutes } from './learning.ts'
import { lineRoutes } from './line.ts'
import { liveRoutes } from './live.ts'
import { markRoutes } from './marks.ts'
import { missingRoutes } from './missing.ts'
import type { ApiNeeds } from './needs.ts'
import { nightRoutes } from './nights.ts'
import { objectTonightRoutes } from './object-tonight.ts'
import { objectRoutes } from './objects.ts'
import { ownObjectRoutes } from './own-objects.ts'
import { ownWordRoutes } from './own-words.ts'
import { placeRoutes } from './places.ts'
import { queueRoutes } from './queue.ts'
import { reportRoutes } from './report.ts'
import { sessionRoutes } from './session.ts'
import { sightRoutes } from './sight.ts'
import { siteRoutes } from './sites.ts'
import { skyRoutes } from './sky.ts'
import { telescopeRoutes } from './telescopes.ts'
import { tourRoutes } from './tours.ts'
import { wishRoutes } from './wishes.ts'

const PLUGINS = [
  healthRoutes,
  sessionRoutes,
  joinRoutes,
  objectRoutes,
  ownObjectRoutes,
  ownWordRoutes,
  placeRoutes,
  skyRoutes,
  sightRoutes,
  siteRoutes,
  telescopeRoutes,
  nightRoutes,
  dateRoutes,
  tourRoutes,
  againRoutes,
  wishRoutes,
  checkRoutes,
  lineRoutes,
  queueRoutes,
  holeRoutes,
  goRoutes,
  reportRoutes,
  missingRoutes,
  besideRoutes,
  objectTonightRoutes,
  alignmentRoutes,
  markRoutes,
  learningRoutes,
  liveRoutes,
]

/** Everything below /api, and the document that describes it. */
export const apiRoutes: FastifyPluginAsync<{ readonly api: ApiNeeds; readonly version: string }> = async (
  app,
  { api, version },
) => {
  await app.register(swagger, {
    openapi: {
      openapi: '3.1.0',
      info: {
        title: 'Duskrow',
        version,
        description: 'Instants are UTC with Z; angles in degrees; units are in the names.',
      },
    },
  })
  for (const plugin of PLUGINS) await app.register(plugin, api)
  app.get('/openapi.json', { config: { role: 'visitor' }, schema: { hide: true } }, async () => app.swagger())
}
