import { widthArcsec } from './planet.ts'
import type { Subject } from './subject.ts'

const FRAME_SHARE = 0.7 // a thing framed leaves three tenths of the field to the sky; common practice, no source
const HEART_SHARE = 0.5 // nobody sees the catalogue size of what fades outwards
const MOON_SHARE = 0.95
const ARCSEC_PER_DEG = 3600

/** The true field in degrees that frames the whole of a thing; 0 for a star. */
export function framesDeg(subject: Subject): number {
  switch (subject.kind) {
    case 'star':
      return 0
    case 'double':
      return subject.separationArcsec / ARCSEC_PER_DEG / FRAME_SHARE
    case 'open-cluster':
      return subject.diameterArcmin / 60 / FRAME_SHARE
    case 'globular':
      return (4 * subject.halfLightArcmin) / 60 / FRAME_SHARE
    case 'asterism':
      return subject.fieldDeg
    case 'planet':
      return widthArcsec(subject) / ARCSEC_PER_DEG / FRAME_SHARE
    case 'moon':
      return subject.diameterArcmin / 60 / MOON_SHARE
    case 'comet':
      return (HEART_SHARE * subject.comaArcmin) / 60 / FRAME_SHARE
    case 'galaxy':
    case 'nebula':
      return (HEART_SHARE * subject.majorArcmin) / 60 / FRAME_SHARE
    default:
      return subject.majorArcmin / 60 / FRAME_SHARE
  }
}
