import { firstShowings } from '../../tours/first-showing.ts'
import type { Night } from '../../tours/night.ts'
import type { Tour } from '../../tours/tour.ts'
import { type CardBack, cardBack } from './card-back.ts'
import type { CardChoice } from './card-choice.ts'
import { type CardFace, cardFace, partsFor } from './card-face.ts'
import type { CardSize } from './card-fit.ts'
import { staleText } from './paper-frame.ts'
import type { PrintPictures } from './print-pictures.ts'
import { type Names, noStopsText } from './say.ts'
import type { SecondLanguage } from './second-language.ts'
import type { Viewer } from './sheet.ts'

/** One side of a card as it lies on its page: the words of the front, the pictures and facts of the back, or nothing. */
export interface CardSide {
  readonly face: CardFace | null
  readonly back: CardBack | null
}

interface CardPage {
  /** True for the sides that are cut along the marks; the others are the paper's other side. */
  readonly isFront: boolean
  /** Names the page that it is printed on. */
  readonly format: string
  readonly sides: readonly CardSide[]
}

interface Cards {
  readonly title: string
  /** That the night was changed after this programme was built; null when all still holds. */
  readonly stale: string | null
  readonly pages: readonly CardPage[]
  readonly emptyText: string
  readonly isEmpty: boolean
}

export interface CardsSubject {
  readonly night: Night
  readonly tour: Tour
  readonly isStale: boolean
  readonly names: Names
  readonly second: SecondLanguage
  readonly pictures: PrintPictures
  readonly cards: CardChoice
}

/** A card as it is held: its two sides. */
interface Leaf {
  readonly front: CardSide
  readonly back: CardSide
}

const NOTHING: CardSide = { face: null, back: null }
const ACROSS = 2
const PER_PAGE = 4

/** The targets that have a card: those of the programme in the order of their first showing, then the spares. */
export const cardKeys = (night: Night, tour: Tour): readonly string[] => [
  ...new Set([...firstShowings(night, tour), ...tour.spares].map(({ targetKey }) => targetKey)),
]

/** Object cards, four to a page or each on pages of its own, with their backs for paper that is printed on both sides. */
export function cards(viewer: Viewer, subject: CardsSubject): Cards {
  const { night, tour, isStale, cards } = subject
  const leaves = cardKeys(night, tour).map((key) => leafOf(viewer, subject, key))
  const sheets = inParts(leaves, cards.size === 'four' ? PER_PAGE : 1)
  const hasBacks = leaves.some(({ back }) => back !== NOTHING)
  return {
    title: viewer.words.say('print.cards'),
    stale: staleText(viewer, isStale),
    pages: sheets.flatMap((sheet) => pagesOf(sheet, cards.size, hasBacks)),
    emptyText: noStopsText(viewer.words, tour),
    isEmpty: leaves.length === 0,
  }
}

/** The card of one target: its words, and behind them what will be seen, the way there and what the front has no room for. */
function leafOf(viewer: Viewer, subject: CardsSubject, key: string): Leaf {
  const face = cardFace(viewer, subject, key)
  const spared = partsFor(viewer, subject, key).filter(({ name }) => !face.parts.some((part) => part.name === name))
  const back = subject.cards.hasBacks ? cardBack(viewer, subject, key, spared) : null
  return { front: { face, back: null }, back: back === null ? NOTHING : { face: null, back } }
}

/** The fronts of one sheet and then its backs, mirrored left to right so that they come to lie behind their fronts. */
function pagesOf(sheet: readonly Leaf[], size: CardSize, hasBacks: boolean): CardPage[] {
  const whole = Array.from(
    { length: size === 'four' ? PER_PAGE : 1 },
    (_, i) => sheet[i] ?? { front: NOTHING, back: NOTHING },
  )
  const fronts = page(
    size,
    true,
    whole.map(({ front }) => front),
  )
  if (!hasBacks) return [fronts]
  const backs = inParts(
    whole.map(({ back }) => back),
    ACROSS,
  ).flatMap((row) => row.toReversed())
  return [fronts, page(size, false, backs)]
}

/** The backs of cards of 6 x 4 in are printed upright, which their pictures need. */
const page = (size: CardSize, isFront: boolean, sides: readonly CardSide[]): CardPage => ({
  isFront,
  format: size === '6x4' && !isFront ? '4x6' : size,
  sides,
})

const inParts = <Item>(items: readonly Item[], size: number): Item[][] =>
  Array.from({ length: Math.ceil(items.length / size) }, (_, i) => items.slice(i * size, (i + 1) * size))
