import { type CardForm, cardSelects } from './card-choice.ts'
import { type CardsSubject, cardKeys } from './cards.ts'
import { hrefOf } from './own-words-night.ts'
import { languageSelect } from './second-language.ts'
import type { Viewer } from './sheet.ts'

/** The form above the cards, and for the host the ways to the words of each, for this night. */
export function cardForm(viewer: Viewer, { night, tour, names, second, cards }: CardsSubject): CardForm {
  const { words, mayHost } = viewer
  const { language } = words.settings
  return {
    action: `/nights/${night.id}/print/cards`,
    selects: [...cardSelects(viewer, cards), ...languageSelect(viewer, second)],
    button: words.say('print.second-show'),
    wordsLabel: words.say('card.words'),
    words: mayHost
      ? cardKeys(night, tour).map((key) => ({
          href: hrefOf(key, { language, night: night.id }),
          text: names.nameOf(key),
        }))
      : [],
  }
}
