import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import { Type } from 'typebox'
import type { AlignmentPair } from '../../tours/alignment.ts'
import type { AlignmentProof } from '../../tours/alignment-proof.ts'
import type { LookAlike } from '../../tours/alignment-rivals.ts'
import type { AlignmentStar } from '../../tours/alignment-stars.ts'
import { wallClock } from '../../tours/hours.ts'
import { pointingOf } from '../../tours/pointing.ts'
import type { Words } from '../../words/words.ts'
import { directionText } from '../pages/say.ts'
import { remarkJson } from './names.ts'
import type { ApiNeeds } from './needs.ts'
import { IdParams, Instant, instant } from './schemas.ts'

const AlignmentQuery = Type.Object({ at: Type.Optional(Instant) })

export const alignmentRoutes: FastifyPluginAsyncTypebox<ApiNeeds> = async (app, { desk, clock, wordsFor }) => {
  app.get(
    '/nights/:id/alignment',
    {
      config: { role: 'visitor' },
      schema: {
        summary: 'Pairs of stars to set driven mounts up on, best first, at an instant or now',
        params: IdParams,
        querystring: AlignmentQuery,
      },
    },
    async (request) => {
      const { id, site } = desk.nights.find(request.params.id)
      const asked = request.query.at
      const at = asked === undefined ? clock.now() : instant('at', asked)
      const pairs = await desk.alignment.pairs(id, at)
      const words = wordsFor(request)
      return {
        at,
        atWall: wallClock(at, site.zone),
        zone: site.zone,
        pairs: pairs.map((pair) => pairJson(words, pair)),
      }
    },
  )
}

/** `meanErrorFactor`: how many times one star's centring error the mount then misses tonight's targets by. */
const pairJson = (words: Words, { stars, proof, ...numbers }: AlignmentPair) => ({
  ...numbers,
  stars: stars.map((star) => ({
    ...lightJson(words, star),
    isAlone: star.lookAlike === null,
    lookAlike: star.lookAlike && lookAlikeJson(words, star.lookAlike),
  })),
  proof: proof && { ...lightJson(words, proof), kind: proof.kind },
})

const lightJson = (words: Words, { key, name, magnitude, colour, direction }: AlignmentStar | AlignmentProof) => ({
  key,
  name,
  magnitude,
  colour: colour && remarkJson(words, { code: `colour.${colour}` }),
  ...direction,
  directionText: directionText(words, { ...direction, ...pointingOf(direction) }),
})

const lookAlikeJson = (words: Words, { tell, ...rival }: LookAlike) => ({
  ...rival,
  tell: tell.map((remark) => remarkJson(words, remark)),
})
