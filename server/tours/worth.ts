import { eyepieceHeight, isForAdult, isForChair, isForChild } from './eyepiece-height.ts'
import type { ObjectKind, ShowObject } from './target.ts'
import type { Telescope, Tube } from './telescope.ts'
import { countOf, type People } from './visitors.ts'

/** What a look is worth at one station at one moment: every factor kept apart, `value` their product; all are 0 to 1 but `fit`. */
interface Worth {
  readonly chance: number
  readonly view: number
  readonly appeal: number
  readonly steadiness: number
  readonly lowness: number
  readonly ceiling: number
  readonly comfort: number
  /** How far it belongs at this telescope, 0.2 to 2. */
  readonly fit: number
  readonly value: number
}

interface WorthInput {
  readonly object: ShowObject
  readonly isClose: boolean
  readonly telescope: Telescope
  /** The tubes looked through: two where there is a second look. */
  readonly tubes: readonly Tube[]
  readonly altitudeDeg: number
  readonly people: People
  readonly chance: number
  readonly view: number
  /** Mean view of the smaller telescopes of the row, null where this is the smallest. */
  readonly smallerView: number | null
  /** True where this mount is pushed by hand and another of the row is driven. */
  readonly isDriftBeside: boolean
  /** 0 for the smallest aperture of the row, 1 for one three times as large and more. */
  readonly bigness: number
}

/** Worth of a look: the product of chance, view and appeal, of what the place takes away, and of how far it needs this telescope. */
export function worthOf(input: WorthInput): Worth {
  const { object, telescope, altitudeDeg, chance, view } = input
  const steadiness = input.isClose ? steadinessAt(altitudeDeg) : 1
  const lowness = isBrightBody(object) ? 1 : lownessAt(altitudeDeg)
  const ceiling = ceilingCost(telescope, altitudeDeg)
  const comfort = Math.min(...input.tubes.map((tube) => comfortOf(telescope, tube, altitudeDeg, input.people)))
  const fit = fitOf(object.kind, input)
  const { appeal } = object
  const value = chance * view * delightOf(appeal) * steadiness * lowness * ceiling * comfort * fit
  return { chance, view, appeal, steadiness, lowness, ceiling, comfort, fit, value }
}

/** What an appeal counts, 0 to 1: its square, since a plain thing shown perfectly must not outrank a showpiece (our judgement). */
const delightOf = (appeal: number): number => appeal ** 2

/** How far a smaller telescope shows it nearly as well before a large one is wasted on it, and what that costs the largest. */
const WASTED_FROM = 0.5
const WASTED_COST = 0.8
/** What aperture adds to a glow beyond what its view says: the big telescope is there for it. */
const GLOW_REWARD = 1
/** What a planet is worth where it drifts away by hand while another telescope would follow it. */
const DRIFTING = 0.5

const GLOWS: readonly ObjectKind[] = ['globular', 'galaxy', 'planetary', 'nebula', 'remnant', 'comet']

type FitInput = Pick<WorthInput, 'view' | 'smallerView' | 'bigness' | 'isDriftBeside'>

/**
 * How far a thing belongs at this telescope (our judgement): glows count up to twice in the largest; the Moon, stars and
 * clusters down to 0.2 there where smaller ones show them as well; planets where a motor follows them.
 */
export function fitOf(kind: ObjectKind, { view, smallerView, bigness, isDriftBeside }: FitInput): number {
  if (kind === 'planet') return isDriftBeside ? DRIFTING : 1
  if (GLOWS.includes(kind)) return 1 + GLOW_REWARD * bigness
  if (smallerView === null || view <= 0) return 1
  const wasted = Math.min(1, Math.max(0, (smallerView / view - WASTED_FROM) / (1 - WASTED_FROM)))
  return 1 - WASTED_COST * bigness * wasted
}

/** Steadiness of a close view by altitude in degrees, for what the sight floor's view does not hold: 1 from 40 up, 0.5 at 20, 0.3 at 12 and below (common practice, no source). */
export function steadinessAt(altitudeDeg: number): number {
  if (altitudeDeg >= 40) return 1
  if (altitudeDeg >= 20) return 0.5 + (0.5 * (altitudeDeg - 20)) / 20
  return Math.max(0.3, 0.3 + (0.2 * (altitudeDeg - 12)) / 8)
}

const isBrightBody = ({ kind }: ShowObject): boolean => kind === 'moon' || kind === 'planet'

/** What a low place costs beyond the air: 1 from 30 degrees up, 0.8 at 20, 0.5 at 12, never under 0.4 (common practice, no source). */
export function lownessAt(altitudeDeg: number): number {
  if (altitudeDeg >= 30) return 1
  if (altitudeDeg >= 20) return 0.8 + (0.2 * (altitudeDeg - 20)) / 10
  return Math.max(0.4, 0.5 + (0.3 * (altitudeDeg - 12)) / 8)
}

/** What the last ten degrees below the ceiling cost: 1 below them, 0.5 at the ceiling; an equatorial mount pays nothing. */
export function ceilingCost(
  { mount, ceilingDeg }: Pick<Telescope, 'mount' | 'ceilingDeg'>,
  altitudeDeg: number,
): number {
  if (mount === 'equatorial') return 1
  return 1 - 0.5 * Math.min(1, Math.max(0, (altitudeDeg - ceilingDeg + 10) / 10))
}

const STRETCHED = 0.7
const OUT_OF_REACH = 0.5

/** Share of the people who look without a step or a stretch, those who cannot counted in part; 1 on an empty field. */
export function comfortOf(telescope: Telescope, tube: Tube, altitudeDeg: number, people: People): number {
  const all = countOf(people)
  if (all === 0) return 1
  const height = eyepieceHeight(telescope, tube, altitudeDeg)
  const standing = Math.max(0, people.adults - people.seated)
  const adults = standing * (isForAdult(height) ? 1 : STRETCHED)
  const children = people.children * (isForChild(height) ? 1 : STRETCHED)
  const seated = (people.adults - standing) * (isForChair(height, telescope) ? 1 : OUT_OF_REACH)
  return (adults + children + seated) / all
}
