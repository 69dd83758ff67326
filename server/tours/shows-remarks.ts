import type { Conditions } from '../sight/conditions.ts'
import { framesDeg } from '../sight/frame.ts'
import type { View } from '../sight/optics.ts'
import { highestPower } from '../sight/power.ts'
import type { Remark } from './tour.ts'

// Common practice, no source.
export const EASY_PUPIL_MM = { least: 2, most: 5 } as const
export const PLANET_POWER = { least: 80, most: 150 } as const
const DIM_PUPIL_MM = 1
const STILL_AIR_ARCSEC = 0.01

/** The Moon at its mean distance, in arcminutes; the Pleiades as the list of things to show has them. */
export const MOON_ARCMIN = 31.1
export const PLEIADES_ARCMIN = 110

/** The true field in degrees that frames the whole Moon, and the whole of the Pleiades. */
export const MOON_FIELD_DEG = framesDeg({
  kind: 'moon',
  litFraction: 1,
  phaseAngleDeg: 0,
  diameterArcmin: MOON_ARCMIN,
})
export const PLEIADES_FIELD_DEG = framesDeg({
  kind: 'open-cluster',
  magnitude: 1.2,
  diameterArcmin: PLEIADES_ARCMIN,
  brightestStarMag: null,
  starCount: null,
})

/** What a view is good for and what is wrong with it, the faults first. */
export function viewRemarks(view: View, conditions: Conditions): readonly Remark[] {
  const faults = faultsOf(view, conditions)
  const isTooStrong = view.powerX > highestPower(view.optics, conditions)
  return isTooStrong ? faults : [...faults, ...usesOf(view, conditions)]
}

function faultsOf({ powerX, exitPupilMm, optics }: View, conditions: Conditions): Remark[] {
  const tubeAloneX = highestPower(optics, { ...conditions, seeingArcsec: STILL_AIR_ARCSEC })
  const isOverAir = powerX > highestPower(optics, conditions)
  return [
    ...(powerX > tubeAloneX ? [{ code: 'kit.view-over-tube' }] : isOverAir ? [{ code: 'kit.view-over-air' }] : []),
    ...(exitPupilMm > conditions.pupilMm ? [{ code: 'kit.view-wide-pupil' }] : []),
    ...(exitPupilMm < DIM_PUPIL_MM ? [{ code: 'kit.view-dim' }] : []),
  ]
}

function usesOf({ powerX, exitPupilMm, trueFieldDeg }: View, { pupilMm }: Conditions): Remark[] {
  const isEasy = exitPupilMm >= EASY_PUPIL_MM.least && exitPupilMm <= Math.min(EASY_PUPIL_MM.most, pupilMm)
  const isForPlanets = powerX >= PLANET_POWER.least && powerX <= PLANET_POWER.most
  return [
    ...(isEasy ? [{ code: 'kit.view-easy' }] : []),
    ...(isForPlanets ? [{ code: 'kit.view-planets' }] : []),
    ...(trueFieldDeg >= PLEIADES_FIELD_DEG ? [{ code: 'kit.view-pleiades' }] : []),
    { code: trueFieldDeg >= MOON_FIELD_DEG ? 'kit.view-moon' : 'kit.view-moon-part' },
  ]
}
