import { type Static, Type } from 'typebox'
import { CARD_SIZES, type CardSize } from './card-fit.ts'
import type { Option } from './form.ts'
import type { PaperLink } from './paper.ts'
import type { Viewer } from './sheet.ts'

/** How object cards are printed. */
export interface CardChoice {
  readonly size: CardSize
  /** With their backs, for paper printed on both sides. */
  readonly hasBacks: boolean
}

/** What an address may ask of cards. */
export const CardFields = {
  cards: Type.Optional(Type.Union(CARD_SIZES.map((size) => Type.Literal(size)))),
  backs: Type.Optional(Type.Union([Type.Literal('yes'), Type.Literal('no')])),
}
const CardQuery = Type.Object(CardFields)

const USUAL_CARDS: CardChoice = { size: 'four', hasBacks: true }

/** Among other papers cards take as few sheets as they can. */
export const CARDS_AMONG_OTHERS: CardChoice = { size: 'four', hasBacks: false }

export const cardChoice = ({ cards, backs }: Static<typeof CardQuery>): CardChoice => ({
  size: cards ?? USUAL_CARDS.size,
  hasBacks: backs === undefined ? USUAL_CARDS.hasBacks : backs === 'yes',
})

/** What an address asks so that it keeps the choice. */
export const cardsAsked = ({ size, hasBacks }: CardChoice): Readonly<Record<string, string>> => ({
  ...(size === USUAL_CARDS.size ? {} : { cards: size }),
  ...(hasBacks === USUAL_CARDS.hasBacks ? {} : { backs: hasBacks ? 'yes' : 'no' }),
})

/** One question of the form above the cards. */
export interface CardSelect {
  readonly name: string
  readonly label: string
  readonly hint: string
  readonly options: readonly Option[]
}

/** The form above the cards, and the ways to the words of each; nothing of it is printed. */
export interface CardForm {
  readonly action: string
  readonly selects: readonly CardSelect[]
  readonly button: string
  readonly wordsLabel: string
  /** [] for whoever may not write. */
  readonly words: readonly PaperLink[]
}

/** The choices of size and backs. */
export function cardSelects({ words }: Viewer, { size, hasBacks }: CardChoice): readonly CardSelect[] {
  const select = (name: string, values: readonly string[], chosen: string): CardSelect => ({
    name,
    label: words.say(`card.choose-${name}`),
    hint: words.say(`card.choose-${name}-hint`),
    options: values.map((value) => ({
      value,
      text: words.say(`card.choose-${name}-${value}`),
      isChosen: value === chosen,
    })),
  })
  return [select('cards', CARD_SIZES, size), select('backs', ['yes', 'no'], hasBacks ? 'yes' : 'no')]
}
