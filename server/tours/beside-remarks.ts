import { hasEarthshine } from '../sight/moon.ts'
import { skyCd } from '../sight/sky-brightness.ts'
import type { Aid } from './beside-aids.ts'
import type { Offer } from './beside-choice.ts'
import { perHourFor } from './beside-meteors.ts'
import { geometryAtStep, stepAt } from './sky-at.ts'
import { starColour } from './star-colour.ts'
import { subjectOf } from './subject.ts'
import type { Remark } from './tour.ts'

const COLOUR_MAG = 1.5 // bare eyes see a colour in brighter ones alone (a choice)
const FIST_DEG = 10

/** What to say of a sight of its kind, none to one sentence. */
export function kindRemarks(offer: Offer, aid: Aid): readonly Remark[] {
  const { object } = offer.sight
  switch (object.kind) {
    case 'moon':
      return earthshine(offer, aid)
    case 'planet':
      return [{ code: 'beside.planet' }]
    case 'star':
    case 'red-star':
      return colour(offer, aid)
    case 'double':
      return isBare(aid) ? colour(offer, aid) : [{ code: 'beside.two' }]
    case 'asterism':
      return width(offer)
    case 'open-cluster':
      return [{ code: 'beside.count-stars' }]
    case 'meteor-shower':
      return [{ code: 'beside.meteors', values: { count: Math.round(perHourFor(offer.seen.chance)) } }]
    case 'bare-eye':
      return [{ code: object.key === 'eye-horse-and-rider' ? 'beside.two' : 'beside.rest-eyes' }]
    default:
      return [{ code: 'beside.glow' }]
  }
}

function width({ sight }: Offer): readonly Remark[] {
  const fists = Math.round((sight.object.fieldDeg ?? 0) / FIST_DEG)
  return fists < 1 ? [] : [{ code: 'beside.wide', values: { count: fists } }]
}

const isBare = ({ view }: Aid): boolean => view.powerX === 1

function colour({ sight }: Offer, aid: Aid): readonly Remark[] {
  const { bv, magnitude } = sight.object
  const name = starColour(bv)
  const isTooFaint = isBare(aid) && (magnitude === null || magnitude > COLOUR_MAG)
  return name === null || isTooFaint ? [] : [{ code: `beside.colour-${name}` }]
}

function earthshine({ sight, fromAt }: Offer, { conditions }: Aid): readonly Remark[] {
  const subject = subjectOf(sight.object, sight.sky)
  const step = Math.round(stepAt(sight.sky, fromAt))
  const cd = skyCd(geometryAtStep(sight.sky, sight.targetIndex, step), conditions)
  return subject?.kind === 'moon' && hasEarthshine(subject, cd) ? [{ code: 'sight.earthshine' }] : []
}
