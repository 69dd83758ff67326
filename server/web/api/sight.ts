import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import type { Conditions } from '../../sight/conditions.ts'
import { highestPower } from '../../sight/eyepiece.ts'
import { type Ocular, type Optics, viewThrough } from '../../sight/optics.ts'
import type { Sighting } from '../../sight/sighting.ts'
import type { Words } from '../../words/words.ts'
import { remarkJson } from './names.ts'
import type { ApiNeeds } from './needs.ts'
import { questionOf, SightBody } from './sight-question.ts'

export const sightRoutes: FastifyPluginAsyncTypebox<ApiNeeds> = async (app, { desk, wordsFor }) => {
  app.post(
    '/sight',
    {
      config: { role: 'visitor' },
      schema: { summary: 'Would a newcomer see it? Changes nothing', body: SightBody },
    },
    async (request) => {
      const question = questionOf(request.body)
      const { objectKey, at, optics, ocular, conditions } = question
      const sighting = sightingJson(wordsFor(request), desk.sight.ask(question))
      return { objectKey, at, zone: 'UTC', ...sighting, ...throughJson(optics, ocular, conditions), conditions }
    },
  )
}

const sightingJson = (words: Words, { reasons, word, ...numbers }: Sighting) => ({
  ...numbers,
  word,
  sentence: words.knows(`sight.word-${word}`) ? words.say(`sight.word-${word}`) : null,
  reasons: reasons.map((reason) => ({
    ...remarkJson(words, reason),
    magnitudes: reason.magnitudes ?? null,
  })),
})

function throughJson(optics: Optics, ocular: Ocular, conditions: Conditions) {
  const { powerX, exitPupilMm, trueFieldDeg } = viewThrough(optics, ocular)
  return { powerX, exitPupilMm, trueFieldDeg, highestPowerX: highestPower(optics, conditions) }
}
