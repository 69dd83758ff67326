import { Type } from 'typebox'
import { SKY_PARTS, type SkyPart } from '../../tours/sky-part.ts'

const ONE = SKY_PARTS.join('|')

/** Parts of the sky as an address names them: `w,nw,overhead`, or nothing. */
export const SkyParts = Type.String({
  pattern: `^((${ONE})(,(${ONE}))*)?$`,
  maxLength: 60,
  description: `Some of ${SKY_PARTS.join(', ')} with commas between`,
})

/** The parts that a text names, each once, in the order of the compass; none without a text. */
export function openParts(text = ''): readonly SkyPart[] {
  const named = text.split(',')
  return SKY_PARTS.filter((part) => named.includes(part))
}
