import { nightHours } from '../../tours/hours.ts'
import { isByHost } from '../../tours/own-words.ts'
import { FACE_PARTS, MOST_FACE_WORDS, wordCount } from '../../tours/story-parts.ts'
import type { ShowObject, Story } from '../../tours/target.ts'
import { type CardSize, type Face, fits } from './card-fit.ts'
import type { CardsSubject } from './cards.ts'
import { distanceText, factLines } from './facts.ts'
import { type LightText, lightText } from './light-text.ts'
import { versionText } from './paper-frame.ts'
import type { Viewer } from './sheet.ts'

/** The front of a card. */
export interface CardFace {
  readonly name: string
  readonly kind: string
  /** What to say before the look. */
  readonly see: string | null
  /** What to look for, how to look, one comparison, one answer: each with its label. */
  readonly parts: readonly Part[]
  /** Null where it is unknown, and where it stands on the back. */
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
  /** Night, date and version; that it is out of date; that the words are the host's. */
  readonly foot: string
}

interface Part {
  readonly name: 'lookFor' | 'how' | 'compare' | 'answer'
  readonly label: string
  readonly text: string
}

const OWN_LINES = [1, 2, 3, 4]

/** What is said of a target at the telescope, as much of it as its card holds. */
export function cardFace(viewer: Viewer, subject: CardsSubject, key: string): CardFace {
  const { words } = viewer
  const { names, second, cards } = subject
  const [object, story] = [names.show(key), names.story(key)]
  const light = lightOf(viewer, subject, key)
  const told = second.language === null ? undefined : second.story(key)
  const texts = secondTexts(told)
  const hasRoom = !story && texts.length === 0
  const whole: CardFace = {
    name: names.nameOf(key),
    kind: object && object.kind !== 'moon' ? kindText(words, object) : '',
    see: story?.see || (object ? words.say(`card.about-${object.kind}`) : null),
    parts: partsFor(viewer, subject, key),
    distance: object && !cards.hasBacks ? distanceText(words, object) : null,
    facts: object && !story ? [...factLines(words, object), ...(light ? [light.left] : [])] : [],
    ownWords: hasRoom ? words.say('card.own-words') : null,
    lines: hasRoom ? OWN_LINES : [],
    second: second.language === null || texts.length === 0 ? null : { language: second.language, texts },
    isTight: false,
    foot: footText(viewer, subject, [story, told]),
  }
  return fitted(withinWords(whole), cards.size)
}

const lightOf = ({ words }: Viewer, { night, names }: CardsSubject, key: string): LightText | null => {
  const object = names.show(key)
  return (object && lightText(words, object, nightHours(night).opensAt, names.worldEvents())) ?? null
}

/** All that is told of a target at and after the look, whether its card holds it or not. */
export function partsFor(viewer: Viewer, subject: CardsSubject, key: string): readonly Part[] {
  const story = subject.names.story(key)
  return story ? partsOf(viewer.words, story, lightOf(viewer, subject, key)) : []
}

/** What to say at and after the look, each part with its label. */
export const partsOf = (words: Viewer['words'], story: Story, light: LightText | null): readonly Part[] =>
  (['lookFor', 'how', 'compare', 'answer'] as const)
    .map((name) => ({ name, text: name === 'compare' && story.compare === '' ? (light?.left ?? '') : story[name] }))
    .filter(({ text }) => text !== '')
    .map(({ name, text }) => ({ name, text, label: words.say(`card.${name}`) }))

const secondTexts = (story: Story | undefined): readonly string[] =>
  story === undefined ? [] : [story.see, story.lookFor, story.answer].filter((text) => text !== '')

function footText(
  viewer: Viewer,
  { night, tour, isStale }: CardsSubject,
  stories: readonly (Story | undefined)[],
): string {
  const { words } = viewer
  const isHosts = stories.some((story) => story && FACE_PARTS.some((part) => isByHost(story, part)))
  return [
    versionText(viewer, night, tour),
    ...(isStale ? [words.say('card.stale')] : []),
    ...(isHosts ? [words.say('card.by-host')] : []),
  ].join(' ')
}

/** What may be left out where all of it is too much, the first to go first; the rest can be read on the pages. */
const SPARED = ['how', 'compare', 'answer', 'lookFor']

const sparing = (face: CardFace, count: number): CardFace => ({
  ...face,
  parts: face.parts.filter(({ name }) => !SPARED.slice(0, count).includes(name)),
})

/** The face with no more words in one language than are read standing up; its labels and its foot are not counted. */
function withinWords(face: CardFace): CardFace {
  const count = ({ see, parts, facts }: CardFace) =>
    wordCount([see ?? '', ...parts.map(({ text }) => text), ...facts].join(' '))
  const tries = [0, 1, 2, 3].map((spared) => sparing(face, spared))
  return tries.find((tried) => count(tried) <= MOST_FACE_WORDS) ?? sparing(face, 4)
}

/** The face with as much of its words as the card holds: in the smaller type before anything is left out, the last of the second language first. */
function fitted(whole: CardFace, size: CardSize): CardFace {
  const shortened = (texts: number, spared: number): CardFace => ({
    ...sparing(whole, spared),
    isTight: true,
    second: whole.second && texts > 0 ? { ...whole.second, texts: whole.second.texts.slice(0, texts) } : null,
  })
  const blank = (lines: number): CardFace => ({
    ...whole,
    isTight: true,
    lines: OWN_LINES.slice(0, lines),
    ownWords: lines === 0 ? null : whole.ownWords,
  })
  const tries = [
    whole,
    ...(whole.ownWords === null ? [] : [4, 3, 2, 1, 0].map(blank)),
    shortened(3, 0),
    ...[0, 1, 2, 3].map((spared) => shortened(2, spared)),
    shortened(1, 3),
    shortened(1, 4),
    shortened(0, 4),
  ]
  return tries.find((tried) => fits(faceOf(tried), size, tried.isTight)) ?? least(shortened(0, 4))
}

/** What is left where even the words before the look are too long for the card, which only a script of wide letters brings about. */
const least = (face: CardFace): CardFace => ({ ...face, see: null, facts: [], ownWords: null, lines: [] })

const faceOf = ({ parts, facts, second, lines, ...rest }: CardFace): Face => ({
  ...rest,
  said: [...parts, ...facts.map((text) => ({ label: null, text }))],
  second: second?.texts ?? [],
  ownLines: lines.length,
})

/** `Globular cluster in Hercules`. */
export function kindText(words: Viewer['words'], object: Pick<ShowObject, 'kind' | 'constellation'>): string {
  const kind = words.say(`kind.${object.kind}`)
  if (object.constellation === null) return kind
  return words.say('card.kind-in', { kind, constellation: words.say(`constellation.${object.constellation}`) })
}
