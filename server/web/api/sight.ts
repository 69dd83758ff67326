import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import type { SightAnswer } from '../../desk/desk.ts'
import type { Conditions } from '../../sight/conditions.ts'
import { type Ocular, type Optics, viewThrough } from '../../sight/optics.ts'
import { highestPower } from '../../sight/power.ts'
import type { Words } from '../../words/words.ts'
import { remarkJson } from './names.ts'
import type { ApiNeeds } from './needs.ts'
import { questionOf, SightBody } from './sight-question.ts'

const DESCRIPTION = [
  'caution warns of the Sun, null while it is down; say it before anything else.',
  'sentence is that warning, the chance in a word and the two heaviest reasons.',
  'reasons come heaviest first. The numbers in values stand in the sentence of the reason: values.mag of moonlight, twilight,',
  'daylight and town light is by how much the sky is brighter, of low air all that the air takes, of a bright or faint thing',
  'its distance from what half of the newcomers see. magnitudes is the weight by which reasons are ordered: what the thing',
  'itself would gain without that cause (of low air: beyond what the air takes overhead; of a faint thing: up to where four in five see it),',
  'of a bright thing the same as values.mag unrounded; where no light helps (power, field, two stars too close) a weight on the same scale.',
].join(' ')
const HEAVIEST = 2

export const sightRoutes: FastifyPluginAsyncTypebox<ApiNeeds> = async (app, { desk, wordsFor }) => {
  app.post(
    '/sight',
    {
      config: { role: 'visitor' },
      schema: { summary: 'Would a newcomer see it? Changes nothing', description: DESCRIPTION, body: SightBody },
    },
    async (request) => {
      const question = questionOf(request.body)
      const { objectKey, at, optics, ocular, conditions } = question
      const sighting = sightingJson(wordsFor(request), desk.sight.ask(question))
      return { objectKey, at, zone: 'UTC', ...sighting, ...throughJson(optics, ocular, conditions), conditions }
    },
  )
}

function sightingJson(words: Words, { reasons, word, caution, ...numbers }: SightAnswer) {
  const told = reasons.map((reason) => ({ ...remarkJson(words, reason), magnitudes: reason.magnitudes ?? null }))
  const warning = caution && remarkJson(words, caution)
  const heaviest = told.slice(0, HEAVIEST).flatMap(({ message }) => message ?? [])
  const seen = words.say('sight.sentence', { word: words.say(`sight.word-${word}`), reasons: heaviest.join(' ') })
  return {
    ...numbers,
    word,
    caution: warning,
    sentence: [...(warning?.message ? [warning.message] : []), seen.trimEnd()].join(' '),
    reasons: told,
  }
}

function throughJson(optics: Optics, ocular: Ocular, conditions: Conditions) {
  const { powerX, exitPupilMm, trueFieldDeg } = viewThrough(optics, ocular)
  return { powerX, exitPupilMm, trueFieldDeg, highestPowerX: highestPower(optics, conditions) }
}
