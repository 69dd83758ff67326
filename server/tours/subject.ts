import { featuresTonight } from '../sight/moon-features.ts'
import { moonsOfJupiter, type PlanetMoon, titan } from '../sight/planet-moons.ts'
import type { PlanetSubject, Subject } from '../sight/subject.ts'
import type { BodyLook } from '../sky/body.ts'
import { isColourContrast } from './colours.ts'
import type { EveningSky } from './evening.ts'
import type { ShowObject } from './target.ts'

type Bodies = Pick<EveningSky, 'looks' | 'rings' | 'faces'>

const DEFAULT_SIZE_ARCMIN = 10
const DEFAULT_CONDENSATION = 4 // a coma whose light falls off as 1/distance, nearly

/**
 * What the sight floor needs of an object on that evening, or null when its row lacks what a chance is reckoned from
 * (no magnitude, a double without its two stars, a body that is not in the sky of the evening).
 */
export function subjectOf(object: ShowObject, sky: Bodies): Subject | null {
  if (object.body !== null) return bodySubject(object, sky)
  if (object.kind === 'double') return doubleSubject(object)
  if (object.magnitude === null) return null
  return fixedSubject(object, object.magnitude)
}

function bodySubject({ body, features }: ShowObject, sky: Bodies): Subject | null {
  const look = body === null ? undefined : sky.looks[body]
  if (look === undefined || body === null || body === 'sun') return null
  if (body !== 'moon') return planetSubject(look, sky)
  const { litFraction, phaseAngleDeg, diameterArcsec } = look
  const lit = features.length === 0 ? {} : { features: featuresTonight(sky.faces.moon, features) }
  return { kind: 'moon', litFraction, phaseAngleDeg, diameterArcmin: diameterArcsec / 60, ...lit }
}

function planetSubject(look: BodyLook, sky: Bodies): PlanetSubject {
  const { key, magnitude, diameterArcsec, litFraction } = look
  const ring = key === 'saturn' ? sky.rings : { majorArcsec: 0, minorArcsec: 0 }
  return {
    kind: 'planet',
    body: key,
    magnitude,
    diameterArcsec,
    litFraction,
    ringMajorArcsec: ring.majorArcsec,
    ringMinorArcsec: ring.minorArcsec,
    moons: moonsOf(look, sky),
  }
}

function moonsOf(look: BodyLook, { faces, rings }: Bodies): readonly PlanetMoon[] {
  if (look.key === 'jupiter') return moonsOfJupiter(look, faces.jupiterMoons)
  const ring = { ringMajorArcsec: rings.majorArcsec, ringMinorArcsec: rings.minorArcsec }
  return look.key === 'saturn' ? [titan({ ...look, ...ring })] : []
}

function doubleSubject(object: ShowObject): Subject | null {
  const { componentMagnitudes: magnitudes, separationArcsec, colours } = object
  if (magnitudes === null || separationArcsec === null) return null
  const hasColourContrast = colours !== null && isColourContrast(colours)
  return { kind: 'double', magnitudes, separationArcsec, hasColourContrast }
}

function fixedSubject(object: ShowObject, magnitude: number): Subject | null {
  const majorArcmin = object.majorArcmin ?? DEFAULT_SIZE_ARCMIN
  const minorArcmin = object.minorArcmin ?? majorArcmin
  const { kind, brightestStarMag, starCount, starMagnitudes: starMags, branchMag } = object
  switch (kind) {
    case 'star':
    case 'red-star':
      return { kind: 'star', magnitude, bv: object.bv, isRed: kind === 'red-star' }
    case 'open-cluster':
      return { kind, magnitude, diameterArcmin: majorArcmin, brightestStarMag, starCount, starMags }
    case 'globular':
      return { kind, magnitude, halfLightArcmin: object.halfLightArcmin ?? majorArcmin / 4, branchMag }
    case 'asterism':
      return { kind, magnitude, fieldDeg: object.fieldDeg ?? majorArcmin / 60 }
    case 'comet':
      return { kind, magnitude, comaArcmin: majorArcmin, condensation: object.condensation ?? DEFAULT_CONDENSATION }
    case 'galaxy':
      return { kind, magnitude, majorArcmin, minorArcmin, core: coreOf(object) }
    case 'planetary':
    case 'nebula':
    case 'remnant':
      return { kind, magnitude, majorArcmin, minorArcmin }
    default:
      return null
  }
}

const coreOf = ({ coreMagnitude: magnitude, coreArcmin: diameterArcmin }: ShowObject) =>
  magnitude === null || diameterArcmin === null ? null : { magnitude, diameterArcmin }
