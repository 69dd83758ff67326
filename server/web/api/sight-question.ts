import { type Static, Type } from 'typebox'
import { type Problem, refuse } from '../../errors.ts'
import { type Conditions, DEFAULT_CONDITIONS, pupilOfAge } from '../../sight/conditions.ts'
import { type Ocular, type Optics, withFactor } from '../../sight/optics.ts'
import { skyMagOfClass } from '../../sight/site-light.ts'
import { NightSettings } from '../../tours/night.ts'
import { GlowSector, SiteDraft } from '../../tours/site.ts'
import { EyepieceDraft, FactorDraft, TubeDraft } from '../../tours/telescope.ts'
import { Instant, instant, ObjectKey, PlaceFields } from './schemas.ts'

const { apertureMm, focalLengthMm, obstruction, transmission } = TubeDraft.properties
const { extinctionMag, seeingArcsec, thinCloud, noviceFactor, moonGazerShare } = NightSettings.properties

const SkyAsked = Type.Partial(
  Type.Object({
    zenithMag: SiteDraft.properties.skyMag,
    skyClass: Type.Integer({ minimum: 1, maximum: 9, description: 'In place of zenithMag: 1 darkest to 9 inner city' }),
    extinctionMag,
    seeingArcsec,
    thinCloud,
    noviceFactor,
    moonGazerShare,
    eyes: Type.Union([Type.Literal(1), Type.Literal(2)]),
    pupilMm: Type.Number({ minimum: 2, maximum: 8 }),
    visitorYears: Type.Number({ minimum: 3, maximum: 110, description: 'In place of pupilMm: age of the visitors' }),
    streetLight: Type.Boolean(),
    glow: Type.Array(GlowSector, { maxItems: 8 }),
  }),
)

/** What POST /api/sight takes. */
export const SightBody = Type.Object({
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
    factor: Type.Optional(FactorDraft.properties.factor),
  }),
  conditions: Type.Optional(SkyAsked),
})
type SightBody = Static<typeof SightBody>

/** A plain refractor, where the question does not say. */
const DEFAULT_TUBE = { obstruction: 0, transmission: 0.9 } as const

/** Years over which the places and magnitudes of the bodies are checked. */
const YEARS = { minimum: 2000, maximum: 2099 } as const

/** The question with everything in it that was left out; a Fault that names each field which contradicts another or no eye could look through. */
export function questionOf(body: SightBody) {
  const { objectKey, at, place, tube, eyepiece, conditions = {} } = body
  const moment = instant('at', at)
  refuse([...yearProblems(moment), ...tubeProblems(body), ...twiceProblems(conditions)])
  const { factor = 1, ...alone } = eyepiece
  return {
    objectKey,
    at: moment,
    place,
    optics: { ...DEFAULT_TUBE, ...tube } satisfies Optics,
    ocular: withFactor({ fieldStopMm: null, ...alone } satisfies Ocular, factor),
    conditions: conditionsOf(conditions),
  }
}

function conditionsOf({ skyClass, visitorYears, ...asked }: Static<typeof SkyAsked>): Conditions {
  return {
    ...DEFAULT_CONDITIONS,
    ...asked,
    ...(skyClass !== undefined && { zenithMag: skyMagOfClass(skyClass) }),
    ...(visitorYears !== undefined && { pupilMm: pupilOfAge(visitorYears) }),
  }
}

function yearProblems(at: Date): Problem[] {
  const year = at.getUTCFullYear()
  return year < YEARS.minimum || year > YEARS.maximum ? [{ field: 'at', key: 'problem.range', values: YEARS }] : []
}

function tubeProblems({ tube, eyepiece }: SightBody): Problem[] {
  const isTooShort = tube.focalLengthMm < tube.apertureMm
  const stop = eyepiece.fieldStopMm ?? 0
  // The field stop of an eyepiece without distortion is 2 f tan(A/2), and the arc f A where it distorts most.
  const widest = 2 * eyepiece.focalLengthMm * Math.tan((eyepiece.apparentFieldDeg * Math.PI) / 360)
  return [
    ...(isTooShort ? [{ field: 'tube.focalLengthMm', key: 'problem.focus-short' }] : []),
    ...(stop > 1.1 * widest ? [{ field: 'eyepiece.fieldStopMm', key: 'problem.stop-wide' }] : []),
  ]
}

function twiceProblems({ zenithMag, skyClass, pupilMm, visitorYears }: Static<typeof SkyAsked>): Problem[] {
  const [isSky, isPupil] = [zenithMag !== undefined && skyClass !== undefined, pupilMm !== undefined]
  return [
    ...(isSky ? [{ field: 'conditions.skyClass', key: 'problem.said-twice', values: { other: 'zenithMag' } }] : []),
    ...(isPupil && visitorYears !== undefined
      ? [{ field: 'conditions.visitorYears', key: 'problem.said-twice', values: { other: 'pupilMm' } }]
      : []),
  ]
}
