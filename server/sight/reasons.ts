import type { MessageValues } from '../errors.ts'
import { isSunUp } from '../sky/sun-up.ts'
import type { Dazzle } from './chance.ts'
import { type Conditions, DEFAULT_CONDITIONS } from './conditions.ts'
import type { Impression, Look } from './impression.ts'
import { cloudLossMag, type Limit, type LimitAt, limitOf } from './limit.ts'
import { cdFromMag } from './luminance.ts'
import type { View } from './optics.ts'
import { rounded } from './ramp.ts'
import { glowFactor } from './site-light.ts'
import type { SkyGeometry, SkyParts } from './sky-brightness.ts'
import type { Subject } from './subject.ts'
import { subjectReasons } from './subject-reasons.ts'
import { isHeldBack } from './view-reasons.ts'

/** One cause of a chance or a view: a key of the words tables, its finished numbers, and in magnitudes what it costs the thing (or, for good news, brings): the weight by which reasons are ordered. */
export interface Reason {
  readonly code: string
  readonly values?: MessageValues
  readonly magnitudes?: number
}

/** Everything that a sighting was made of. */
export interface Scene {
  readonly subject: Subject
  readonly geometry: SkyGeometry
  readonly view: View
  readonly conditions: Conditions
  readonly sky: SkyParts
  readonly look: Look
  readonly limitAt: LimitAt
  readonly limit: Limit
  readonly impression: Impression
  readonly dazzle: Dazzle
}

const WORTH_SAYING_MAG = 0.15
/** With so much light to spare nothing that takes light away matters. */
const PLENTY_MAG = 4
const DARK_SITE_MAG = 21.6 // a dark mountain, Patat, A&A 400 (2003), 1183

/** The reasons for a sighting, heaviest first: what takes light, then what lies in the thing itself. */
export function reasonsFor(scene: Scene): readonly Reason[] {
  const { impression } = scene
  const isLightScarce = impression.lightMag < PLENTY_MAG && !isHeldBack(impression)
  const light = isLightScarce ? [...skyReasons(scene), ...airReasons(scene)] : []
  const losses = light.filter(({ magnitudes = 0 }) => magnitudes >= WORTH_SAYING_MAG)
  return [...losses, ...subjectReasons(scene)].sort((a, b) => (b.magnitudes ?? 0) - (a.magnitudes ?? 0))
}

/** What the thing would gain in magnitudes under another sky in cd/m^2. */
const gainUnder = ({ look, limitAt, geometry, impression }: Scene, otherCd: number): number =>
  look(limitAt(otherCd, geometry.altitudeDeg)).lightMag - impression.lightMag

/** How many magnitudes per square arcsecond this part of the light adds to the sky. */
const adds = (totalCd: number, partCd: number): number => 2.5 * Math.log10(totalCd / (totalCd - partCd))

function skyReasons(scene: Scene): readonly Reason[] {
  const { sky, conditions, geometry } = scene
  const { totalCd, siteCd, moonCd, twilightCd } = sky
  const without = (code: string, partCd: number): Reason => ({
    code,
    values: { mag: rounded(adds(totalCd, partCd)) },
    magnitudes: gainUnder(scene, totalCd - partCd),
  })
  const town = siteCd * (1 - Math.min(1, cdFromMag(DARK_SITE_MAG) / cdFromMag(conditions.zenithMag)))
  const glow = siteCd * (1 - 1 / glowFactor(conditions.glow, geometry.altitudeDeg, geometry.azimuthDeg))
  return [
    without('sight.moonlight', moonCd),
    without(isSunUp(geometry.sunAltitudeDeg) ? 'sight.daylight' : 'sight.twilight', twilightCd),
    without('sight.town-sky', town),
    without('sight.glow', glow),
  ]
}

function airReasons({ conditions, geometry, limit, view, sky, look, impression, dazzle }: Scene): readonly Reason[] {
  const cloudMag = cloudLossMag(conditions)
  const airMag = limit.lostMag - cloudMag
  const hazeMag = conditions.extinctionMag - DEFAULT_CONDITIONS.extinctionMag
  const unlit = limitOf(view, { ...conditions, streetLight: false })(sky.totalCd, geometry.altitudeDeg)
  const percent = Math.round(100 * dazzle.share)
  return [
    ...lowAir(airMag, airMag - conditions.extinctionMag, geometry.altitudeDeg),
    { code: 'sight.haze', values: { mag: rounded(hazeMag) }, magnitudes: hazeMag },
    { code: 'sight.thin-cloud', values: { mag: rounded(cloudMag) }, magnitudes: cloudMag },
    { code: 'sight.street-light', magnitudes: look(unlit).lightMag - impression.lightMag },
    {
      code: 'sight.moon-gazers',
      values: { percent, mag: rounded(dazzle.lostMag) },
      magnitudes: dazzle.share * dazzle.lostMag,
    },
  ]
}

const LOW_AIR_MAG = 0.2 // from about 35 degrees down in town air; higher up nobody calls a thing low

/** What the air takes of a low thing, weighed by how much more that is than overhead. */
const lowAir = (airMag: number, excessMag: number, altitudeDeg: number): readonly Reason[] =>
  excessMag < LOW_AIR_MAG
    ? []
    : [
        {
          code: 'sight.air',
          values: { mag: rounded(airMag), altitude: Math.round(altitudeDeg) },
          magnitudes: excessMag,
        },
      ]
