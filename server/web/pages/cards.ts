import { nightHours } from '../../tours/hours.ts'
import type { Night } from '../../tours/night.ts'
import type { ShowObject, Story } from '../../tours/target.ts'
import type { Tour } from '../../tours/tour.ts'
import { type Face, fits } from './card-fit.ts'
import { distanceText, factLines } from './facts.ts'
import { type LightText, lightText } from './light-text.ts'
import type { Paper, PaperFrame } from './paper.ts'
import { paperFrame, staleText, versionText } from './paper-frame.ts'
import type { Names } from './say.ts'
import { type LanguageChoice, languageChoice, type SecondLanguage, withSecond } from './second-language.ts'
import type { Viewer } from './sheet.ts'

export interface Card {
  readonly name: string
  readonly kind: string
  /** What to say before the look. */
  readonly see: string | null
  /** What to look for, how to look, one comparison, one answer: each with its label. */
  readonly parts: readonly Part[]
  readonly distance: string | null
  /** What the catalogue knows, where no story is told yet. */
  readonly facts: readonly string[]
  /** Room for the host's own words where no story is told yet: a label and empty lines. */
  readonly ownWords: string | null
  readonly lines: readonly number[]
  /** What is said in the second language; null where there is none, or nothing. */
  readonly second: { readonly language: string; readonly texts: readonly string[] } | null
  /** Set in the smaller type, since there is much to say. */
  readonly isTight: boolean
  readonly foot: string
}

interface Part {
  readonly name: 'lookFor' | 'how' | 'compare' | 'answer'
  readonly label: string
  readonly text: string
}

export interface CardsPage extends PaperFrame {
  readonly version: string
  /** That the night was changed after this programme was built; null when all still holds. */
  readonly stale: string | null
  readonly languages: LanguageChoice | null
  readonly pages: readonly { readonly cards: readonly Card[] }[]
  readonly emptyText: string
  readonly isEmpty: boolean
}

export interface CardsSubject {
  readonly night: Night
  readonly tour: Tour
  readonly isStale: boolean
  readonly names: Names
  readonly second: SecondLanguage
}

const PER_PAGE = 4
const OWN_LINES = [1, 2, 3, 4]

/** Object cards, four to a page: one for each target of the programme in the order of its first showing, then the spares. */
export function cardsPage(viewer: Viewer, subject: CardsSubject, paper: Paper): CardsPage {
  const { night, tour, isStale, second } = subject
  const stops = [...tour.stops].sort((a, b) => a.startsAt.getTime() - b.startsAt.getTime())
  const keys = [...new Set([...stops, ...tour.spares].map(({ targetKey }) => targetKey))]
  const cards = keys.map((key) => fitted(card(viewer, subject, key)))
  const frame = paperFrame(viewer, night, paper, 'cards', 'print.cards')
  return {
    ...frame,
    otherPaper: { ...frame.otherPaper, href: withSecond(frame.otherPaper.href, second) },
    version: versionText(viewer, night, tour),
    stale: staleText(viewer, isStale),
    languages: languageChoice(viewer, second, `/nights/${night.id}/print/cards`),
    pages: Array.from({ length: Math.ceil(cards.length / PER_PAGE) }, (_, page) => ({
      cards: cards.slice(page * PER_PAGE, (page + 1) * PER_PAGE),
    })),
    emptyText: viewer.words.say('page.no-stops'),
    isEmpty: cards.length === 0,
  }
}

function card({ words }: Viewer, { night, names, second: { language, story: told } }: CardsSubject, key: string): Card {
  const object = names.show(key)
  const story = names.story(key)
  const light = (object && lightText(words, object, nightHours(night).opensAt, names.worldEvents())) ?? null
  const texts = language === null ? [] : secondTexts(told(key))
  const hasRoom = !story && texts.length === 0
  return {
    name: names.nameOf(key),
    kind: object ? kindText(words, object) : '',
    see: story?.see || (object ? words.say(`card.about-${object.kind}`) : null),
    parts: story ? partsOf(words, story, light) : [],
    distance: object ? distanceText(words, object) : null,
    facts: object && !story ? [...factLines(words, object), ...(light ? [light.left] : [])] : [],
    ownWords: hasRoom ? words.say('card.own-words') : null,
    lines: hasRoom ? OWN_LINES : [],
    second: language === null || texts.length === 0 ? null : { language, texts },
    isTight: false,
    foot: night.title,
  }
}

/** What to say at and after the look, each part with its label. */
export const partsOf = (words: Viewer['words'], story: Story, light: LightText | null): readonly Part[] =>
  (['lookFor', 'how', 'compare', 'answer'] as const)
    .map((name) => ({ name, text: name === 'compare' && story.compare === '' ? (light?.left ?? '') : story[name] }))
    .filter(({ text }) => text !== '')
    .map(({ name, text }) => ({ name, text, label: words.say(`card.${name}`) }))

const secondTexts = (story: Story | undefined): readonly string[] =>
  story === undefined ? [] : [story.see, story.lookFor, story.answer].filter((text) => text !== '')

/** What may be left out where all of it is too much, the first to go first; the rest can be read on the pages. */
const SPARED = ['how', 'compare', 'answer', 'lookFor']

/** The card with as much of its words as it holds: in the smaller type before anything is left out, the last of the second language first. */
function fitted(whole: Card): Card {
  const { parts, second } = whole
  const shortened = (texts: number, spared: number): Card => ({
    ...whole,
    isTight: true,
    parts: parts.filter(({ name }) => !SPARED.slice(0, spared).includes(name)),
    second: second && { ...second, texts: second.texts.slice(0, texts) },
  })
  const tries = [whole, shortened(3, 0), ...[0, 1, 2, 3].map((spared) => shortened(2, spared)), shortened(1, 3)]
  return tries.find((tried) => fits(faceOf(tried), tried.isTight)) ?? shortened(1, 4)
}

const faceOf = ({ parts, facts, second, lines, ...rest }: Card): Face => ({
  ...rest,
  said: [...parts.map(({ label, text }) => `${label} ${text}`), ...facts],
  second: second?.texts ?? [],
  ownLines: lines.length,
})

/** `Globular cluster in Hercules`. */
export function kindText(words: Viewer['words'], object: Pick<ShowObject, 'kind' | 'constellation'>): string {
  const kind = words.say(`kind.${object.kind}`)
  if (object.constellation === null) return kind
  return words.say('card.kind-in', { kind, constellation: words.say(`constellation.${object.constellation}`) })
}
