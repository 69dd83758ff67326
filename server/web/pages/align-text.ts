import { type AlignmentPair, APART_DEG, isFirstMagnitude, OPPOSITE_DEG } from '../../tours/alignment.ts'
import type { AlignmentProof } from '../../tours/alignment-proof.ts'
import type { AlignmentStar } from '../../tours/alignment-stars.ts'
import { pointingOf } from '../../tours/pointing.ts'
import type { Words } from '../../words/words.ts'
import { directionText, remarkText } from './say.ts'

/** A star to centre as an operator needs it. */
interface AlignStarText {
  readonly name: string
  /** How to say the name; null where nobody wrote it down. */
  readonly said: string | null
  /** `west, 4 fists up`. */
  readonly direction: string
  readonly colour: string | null
  /** What could be taken for it, then how to tell; or that nothing could. */
  readonly lookAlike: readonly string[]
}

export interface AlignPairText {
  readonly title: string
  readonly stars: readonly AlignStarText[]
  /** Why this pair, the plainest first. */
  readonly why: readonly string[]
  /** How near tonight's targets the mount then points. */
  readonly error: string
  readonly proof: string
}

/**
 * How far a star is off the middle when an eye has put it there: a twelfth of a degree, as the mean of many. Common
 * practice, no source. Nineteen mounts in twenty miss by less than twice the mean.
 */
const CENTRED_DEG = 1 / 12
const NINETEEN_IN_TWENTY = 2
/** Degrees within which the targets are left, by the names of their sentences. */
const WITHIN = [
  ['quarter', 0.25],
  ['half', 0.5],
  ['one', 1],
  ['two', 2],
] as const

/** A pair as sentences; `place` is 0 for the best. */
export function alignPairText(
  words: Words,
  { stars, azimuthApartDeg, ...pair }: AlignmentPair,
  place: number,
): AlignPairText {
  return {
    title: words.say(`align.pair-${place + 1}`),
    stars: stars.map((star) => starText(words, star)),
    why: [brightText(words, stars), aloneText(words, stars), ...apartText(words, azimuthApartDeg)],
    error: errorText(words, pair.meanErrorFactor),
    proof: proofText(words, pair.proof),
  }
}

function starText(words: Words, star: AlignmentStar): AlignStarText {
  const { name, colour, lookAlike } = star
  return {
    name: words.called(name),
    said: saidText(words, name),
    direction: whereText(words, star),
    colour: colour && words.say(`colour.${colour}`),
    lookAlike:
      lookAlike === null
        ? [words.say('align.alone')]
        : [
            words.say('align.look-alike', { rival: lookAlike.name }),
            ...lookAlike.tell.map((remark) => remarkText(words, remark)),
          ],
  }
}

function saidText(words: Words, name: string): string | null {
  const key = `align.said-${name.toLowerCase().replaceAll(' ', '-')}`
  return words.knows(key) ? words.say(key) : null
}

/** Where a light stands, in words and fists. */
export const whereText = (words: Words, { direction }: Pick<AlignmentStar, 'direction'>): string =>
  directionText(words, { ...direction, ...pointingOf(direction) })

type Two = AlignmentPair['stars']

function brightText(words: Words, stars: Two): string {
  const bright = stars.filter(isFirstMagnitude)
  return words.say(`align.bright-${bright.length}`, { name: bright[0]?.name ?? '' })
}

function aloneText(words: Words, stars: Two): string {
  const alone = stars.filter(({ lookAlike }) => lookAlike === null)
  return words.say(`align.alone-${alone.length}`, { name: alone[0]?.name ?? '' })
}

function apartText(words: Words, azimuthApartDeg: number): readonly string[] {
  if (azimuthApartDeg < APART_DEG) return [words.say('align.near')]
  return azimuthApartDeg > OPPOSITE_DEG ? [words.say('align.opposite')] : []
}

/** The least of the named degrees within which nineteen mounts in twenty leave the targets. */
function errorText(words: Words, meanErrorFactor: number): string {
  const degrees = CENTRED_DEG * NINETEEN_IN_TWENTY * meanErrorFactor
  const [name] = WITHIN.find(([, mostDeg]) => degrees <= mostDeg) ?? ['more']
  return words.say(`align.within-${name}`)
}

function proofText(words: Words, proof: AlignmentProof | null): string {
  if (proof === null) return words.say('align.no-proof')
  return words.say(`align.proof-${proof.kind}`, { name: proof.name, where: whereText(words, proof) })
}
