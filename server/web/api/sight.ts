import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox'
import { type Static, Type } from 'typebox'
import { type Conditions, DEFAULT_CONDITIONS } from '../../sight/conditions.ts'
import { type Ocular, type Optics, viewThrough } from '../../sight/optics.ts'
import type { Sighting } from '../../sight/sighting.ts'
import { NightSettings } from '../../tours/night.ts'
import { GlowSector, SiteDraft } from '../../tours/site.ts'
import { EyepieceDraft, TubeDraft } from '../../tours/telescope.ts'
import type { Words } from '../../words/words.ts'
import { remarkJson } from './names.ts'
import type { ApiNeeds } from './needs.ts'
import { Instant, instant, ObjectKey, PlaceFields } from './schemas.ts'

const { apertureMm, focalLengthMm, obstruction, transmission } = TubeDraft.properties
const { extinctionMag, seeingArcsec, thinCloud, noviceFactor, moonGazerShare } = NightSettings.properties

const SkyAsked = Type.Partial(
  Type.Object({
    zenithMag: SiteDraft.properties.skyMag,
    extinctionMag,
    seeingArcsec,
    thinCloud,
    noviceFactor,
    moonGazerShare,
    pupilMm: Type.Number({ minimum: 2, maximum: 8 }),
    streetLight: Type.Boolean(),
    glow: Type.Array(GlowSector, { maxItems: 8 }),
  }),
)
const SightBody = Type.Object({
  objectKey: ObjectKey,
  at: Instant,
  place: Type.Object(PlaceFields),
  tube: Type.Object({
    apertureMm,
    focalLengthMm,
    obstruction: Type.Optional(obstruction),
    transmission: Type.Optional(transmission),
  }),
  eyepiece: Type.Object({
    focalLengthMm: EyepieceDraft.properties.focalLengthMm,
    apparentFieldDeg: EyepieceDraft.properties.apparentFieldDeg,
    fieldStopMm: Type.Optional(EyepieceDraft.properties.fieldStopMm),
  }),
  conditions: Type.Optional(SkyAsked),
})

/** A plain refractor, where the question does not say. */
const DEFAULT_TUBE = { obstruction: 0, transmission: 0.9 } as const

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
      return { objectKey, at, zone: 'UTC', ...sighting, ...throughJson(optics, ocular), conditions }
    },
  )
}

function questionOf({ objectKey, at, place, tube, eyepiece, conditions }: Static<typeof SightBody>) {
  return {
    objectKey,
    at: instant('at', at),
    place,
    optics: { ...DEFAULT_TUBE, ...tube } satisfies Optics,
    ocular: { fieldStopMm: null, ...eyepiece } satisfies Ocular,
    conditions: { ...DEFAULT_CONDITIONS, ...conditions } satisfies Conditions,
  }
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

function throughJson(optics: Optics, ocular: Ocular) {
  const { powerX, exitPupilMm, trueFieldDeg } = viewThrough(optics, ocular)
  return { powerX, exitPupilMm, trueFieldDeg }
}
