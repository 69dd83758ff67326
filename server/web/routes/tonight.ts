import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import { Type } from 'typebox'
import type { Desk } from '../../desk/desk.ts'
import { lineNowOf } from '../../desk/line-now.ts'
import { isSunUp } from '../../sky/sun-up.ts'
import type { LineNow } from '../../tours/line-now.ts'
import type { Night } from '../../tours/night.ts'
import { languageCode } from '../../tours/own-words.ts'
import { placeOf } from '../../tours/site.ts'
import type { Viewer } from '../pages/sheet.ts'
import { type TonightPage, tonightPage } from '../pages/tonight.ts'
import { LookQuery, lookOf } from './look.ts'
import { namesFrom, type PageNeeds } from './needs.ts'
import { withinOf } from './within.ts'

const Params = Type.Object({ nightId: Type.String({ minLength: 1, maxLength: 40 }) })
const TonightQuery = Type.Object({
  ...LookQuery.properties,
  second: Type.Optional(Type.String({ maxLength: 40 })),
})

interface Asked {
  readonly look: 'day' | 'lamp'
  readonly second: string | undefined
  readonly inTime: ReturnType<typeof withinOf>
}

export const tonightRoutes: FastifyPluginAsyncTypebox<PageNeeds> = async (app, { desk, viewerOf }) => {
  async function pageOf(viewer: Viewer, night: Night, { look, second, inTime }: Asked): Promise<TonightPage> {
    const tour = desk.tours.current(night.id)
    const beside = (await inTime(desk.beside(night.id, tour))) ?? []
    const own = viewer.words.settings.language
    const line = lineNowOf(desk, night.id)
    const sunDeg = desk.sky.bodyLook('sun', line.at, placeOf(night.site)).altitudeDeg
    return tonightPage(viewer, {
      night,
      tour,
      line,
      version: desk.marks.version(night.id),
      beside,
      names: namesFrom(desk, viewer.words, night.id),
      look,
      altitudeOf: altitudes(desk, night, line),
      isSunUp: isSunUp(sunDeg),
      go: desk.go.of(night.id),
      ...secondOf(desk, own, second),
    })
  }

  app.get(
    '/tonight/:nightId',
    { config: { role: 'visitor', isKept: true }, schema: { params: Params, querystring: TonightQuery } },
    async (request, reply) => {
      const night = desk.nights.find(request.params.nightId)
      const { second } = request.query
      const look = lookOf(request, reply, { look: request.query.look, path: '/tonight', usual: 'day' })
      const inTime = withinOf(reply)
      return reply.page('tonight', await pageOf(viewerOf(request), night, { look, second, inTime }))
    },
  )
}

/** How high the things that are shown stand; null for one that the sky does not know. */
function altitudes({ sky }: Desk, { site }: Night, { at, stations }: LineNow): (key: string) => number | null {
  const keys = [...new Set(stations.flatMap(({ showing }) => (showing ? [showing.targetKey] : [])))]
  const known = new Map(keys.flatMap((key) => placeOrNone(() => sky.places(at, placeOf(site), [key]))))
  return (key) => known.get(key) ?? null
}

function placeOrNone(ask: () => ReturnType<Desk['sky']['places']>): (readonly [string, number])[] {
  try {
    return ask().map(({ key, apparentAltitudeDeg }) => [key, apparentAltitudeDeg] as const)
  } catch {
    return []
  }
}

/** The second language that was asked for, if there are words in it and it is not the reader's own. */
function secondOf({ words, objects }: Desk, own: string, asked = '') {
  const languages = words.languages()
  const second = languages.find((code) => code === languageCode(asked) && code !== own) ?? null
  return {
    languages,
    second,
    secondStory: (key: string) => (second === null ? undefined : objects.story(key, second)),
  }
}
