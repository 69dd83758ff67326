import type { Subject } from '../sight/subject.ts'
import type { EveningSky } from './evening.ts'
import type { ShowObject } from './target.ts'

const DEFAULT_SIZE_ARCMIN = 10

/**
 * What the sight floor needs of an object on that evening, or null when its row lacks what a chance is reckoned from
 * (no magnitude, a double without its two stars, a body that is not in the sky of the evening).
 */
export function subjectOf(object: ShowObject, sky: Pick<EveningSky, 'looks' | 'rings'>): Subject | null {
  if (object.body !== null) return bodySubject(object, sky)
  if (object.kind === 'double') return doubleSubject(object)
  if (object.magnitude === null) return null
  return fixedSubject(object, object.magnitude)
}

function bodySubject({ body }: ShowObject, { looks, rings }: Pick<EveningSky, 'looks' | 'rings'>): Subject | null {
  const look = body === null ? undefined : looks[body]
  if (look === undefined || body === null || body === 'sun') return null
  const { litFraction, phaseAngleDeg, diameterArcsec, magnitude } = look
  if (body === 'moon') return { kind: 'moon', litFraction, phaseAngleDeg, diameterArcmin: diameterArcsec / 60 }
  const hasRing = body === 'saturn'
  return {
    kind: 'planet',
    body,
    magnitude,
    diameterArcsec,
    litFraction,
    ringMajorArcsec: hasRing ? rings.majorArcsec : 0,
    ringMinorArcsec: hasRing ? rings.minorArcsec : 0,
  }
}

function doubleSubject(object: ShowObject): Subject | null {
  const { componentMagnitudes: magnitudes, separationArcsec } = object
  if (magnitudes === null || separationArcsec === null) return null
  return { kind: 'double', magnitudes, separationArcsec, hasColourContrast: object.colours !== null }
}

function fixedSubject(object: ShowObject, magnitude: number): Subject | null {
  const majorArcmin = object.majorArcmin ?? DEFAULT_SIZE_ARCMIN
  const minorArcmin = object.minorArcmin ?? majorArcmin
  const { kind, brightestStarMag, starCount } = object
  switch (kind) {
    case 'star':
    case 'red-star':
      return { kind: 'star', magnitude, bv: object.bv, isRed: kind === 'red-star' }
    case 'open-cluster':
      return { kind, magnitude, diameterArcmin: majorArcmin, brightestStarMag, starCount }
    case 'globular':
      return { kind, magnitude, halfLightArcmin: object.halfLightArcmin ?? majorArcmin / 4 }
    case 'asterism':
      return { kind, magnitude, fieldDeg: object.fieldDeg ?? majorArcmin / 60 }
    case 'galaxy':
    case 'planetary':
    case 'nebula':
    case 'remnant':
      return { kind, magnitude, majorArcmin, minorArcmin }
    default:
      return null
  }
}
