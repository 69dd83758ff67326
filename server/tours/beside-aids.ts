import type { Conditions } from '../sight/conditions.ts'
import type { View } from '../sight/optics.ts'
import { conditionsOf } from './evening-chance.ts'
import type { Night } from './night.ts'
import type { Gate } from './offered.ts'
import { BARE_EYE } from './walks.ts'

/** What people look with where no telescope stands: its view, the conditions that go with it, and how far it reaches. */
export interface Aid {
  readonly view: View
  readonly conditions: Conditions
  readonly reach: Gate['mount']
  /** The least share of newcomers who must see what is shown. */
  readonly leastChance: number
}

/** Somebody stands by and points until they have it, so three in five are enough (a choice). */
const EYES_CHANCE = 0.6
/** One eye takes in about so much without being turned; it only frames patterns (a choice). */
const EYE_FIELD_DEG = 100

/** Two bare eyes: a tube of power one as wide as the pupil. */
export function bareEyes(night: Night): Aid {
  const conditions = conditionsOf(night)
  const { pupilMm } = conditions
  const optics = { apertureMm: pupilMm, focalLengthMm: 100, obstruction: 0, transmission: 1 }
  return {
    view: { powerX: 1, exitPupilMm: pupilMm, trueFieldDeg: EYE_FIELD_DEG, optics },
    conditions: { ...conditions, eyes: 2 },
    reach: BARE_EYE,
    leastChance: EYES_CHANCE,
  }
}

const POWER_X = 10
const APERTURE_MM = 50
const FIELD_DEG = 6.5
const BINOCULARS_CHANCE = 0.5
// Choices: seven glasses and a prism each side pass so much; free hands shake an image by so much; nobody bends further back.
const TRANSMISSION = 0.85
const HANDS_ARCSEC = 40
const NECK_DEG = 75

/**
 * A nominal pair of 10x50 with a field of 6.5 degrees, held by a visitor with both eyes: whatever pair lies on the table
 * is taken for this one. A tube without obstruction, its image blurred by the hands beside the air, and no higher than a
 * neck bends.
 */
export function binoculars(night: Night): Aid {
  const conditions = conditionsOf(night)
  const optics = { apertureMm: APERTURE_MM, focalLengthMm: 200, obstruction: 0, transmission: TRANSMISSION }
  return {
    view: { powerX: POWER_X, exitPupilMm: APERTURE_MM / POWER_X, trueFieldDeg: FIELD_DEG, optics },
    conditions: { ...conditions, eyes: 2, seeingArcsec: Math.hypot(conditions.seeingArcsec, HANDS_ARCSEC) },
    reach: { floorDeg: 0, ceilingDeg: NECK_DEG },
    leastChance: BINOCULARS_CHANCE,
  }
}
