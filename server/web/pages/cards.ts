import type { Night } from '../../tours/night.ts'
import type { ShowObject } from '../../tours/target.ts'
import type { Tour } from '../../tours/tour.ts'
import { distanceText, factLines } from './facts.ts'
import type { Paper, PaperFrame } from './paper.ts'
import { paperFrame, staleText, versionText } from './paper-frame.ts'
import type { Names } from './say.ts'
import type { Viewer } from './sheet.ts'

export interface Card {
  readonly name: string
  readonly kind: string
  /** What to say before the look. */
  readonly see: string | null
  /** What to look for, how to look, one comparison, one answer: each with its label. */
  readonly parts: readonly { readonly label: string; readonly text: string }[]
  readonly distance: string | null
  /** What the catalogue knows, where no story is told yet. */
  readonly facts: readonly string[]
  /** Room for the host's own words where no story is told yet: a label and empty lines. */
  readonly ownWords: string | null
  readonly lines: readonly number[]
  readonly foot: string
}

export interface CardsPage extends PaperFrame {
  readonly version: string
  /** That the night was changed after this programme was built; null when all still holds. */
  readonly stale: string | null
  readonly pages: readonly { readonly cards: readonly Card[] }[]
  readonly emptyText: string
  readonly isEmpty: boolean
}

const PER_PAGE = 4
const OWN_LINES = [1, 2, 3, 4]

/** Object cards, four to a page: one for each target of the programme in the order of its first showing, then the spares. */
export function cardsPage(
  viewer: Viewer,
  { night, tour, isStale, names }: { night: Night; tour: Tour; isStale: boolean; names: Names },
  paper: Paper,
): CardsPage {
  const stops = [...tour.stops].sort((a, b) => a.startsAt.getTime() - b.startsAt.getTime())
  const keys = [...new Set([...stops, ...tour.spares].map(({ targetKey }) => targetKey))]
  const cards = keys.map((key) => card(viewer, night, key, names))
  return {
    ...paperFrame(viewer, night, paper, 'cards', 'print.cards'),
    version: versionText(viewer, night, tour),
    stale: staleText(viewer, isStale),
    pages: Array.from({ length: Math.ceil(cards.length / PER_PAGE) }, (_, page) => ({
      cards: cards.slice(page * PER_PAGE, (page + 1) * PER_PAGE),
    })),
    emptyText: viewer.words.say('page.no-stops'),
    isEmpty: cards.length === 0,
  }
}

function card({ words }: Viewer, night: Night, key: string, names: Names): Card {
  const object = names.show(key)
  const story = names.story(key)
  const parts = story
    ? (['lookFor', 'how', 'compare', 'answer'] as const).map((part) => ({ part, text: story[part] }))
    : []
  return {
    name: names.nameOf(key),
    kind: object ? kindText(words, object) : '',
    see: story?.see || (object ? words.say(`card.about-${object.kind}`) : null),
    parts: parts
      .filter(({ text }) => text !== '')
      .map(({ part, text }) => ({ label: words.say(`card.${part}`), text })),
    distance: object ? distanceText(words, object) : null,
    facts: object && !story ? factLines(words, object) : [],
    ownWords: story ? null : words.say('card.own-words'),
    lines: story ? [] : OWN_LINES,
    foot: night.title,
  }
}

/** `Globular cluster in Hercules`. */
export function kindText(words: Viewer['words'], object: ShowObject): string {
  const kind = words.say(`kind.${object.kind}`)
  if (object.constellation === null) return kind
  return words.say('card.kind-in', { kind, constellation: words.say(`constellation.${object.constellation}`) })
}
