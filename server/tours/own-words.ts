import { type Static, Type } from 'typebox'
import { Value } from 'typebox/value'
import type { Problem } from '../errors.ts'
import { schemaProblems } from './schema-problems.ts'
import { faceWords, MOST_FACE_WORDS, STORY_PARTS, type StoryPart } from './story-parts.ts'
import type { Story } from './target.ts'

/** The longest text of each part, in letters. */
export const LONGEST = {
  see: 180,
  lookFor: 180,
  how: 180,
  compare: 180,
  answer: 180,
  children: 240,
  more: 400,
} as const satisfies Readonly<Record<StoryPart, number>>

const part = (name: StoryPart) => Type.Optional(Type.String({ maxLength: LONGEST[name] }))

/** What a host writes of a thing in one language; a part that is left out or empty stays as it ships. */
export const OwnWordsDraft = Type.Object({
  see: part('see'),
  lookFor: part('lookFor'),
  how: part('how'),
  compare: part('compare'),
  answer: part('answer'),
  children: part('children'),
  more: part('more'),
})

/** The parts that a host has written, each in the place of the shipped one. */
export type OwnWords = Readonly<Partial<Record<StoryPart, string>>>

/** The source of what a host writes. */
export const BY_HOST = 'written by the host'

/** True where a part of a story is the host's own. */
export const isByHost = ({ sources }: Pick<Story, 'sources'>, part: StoryPart): boolean => sources[part] === BY_HOST

/** What is told of a thing in a language: the words that ship, those of the host, and both together. */
export interface ToldWords {
  readonly key: string
  readonly language: string
  /** The night that the host's words are for; null for those of every night. */
  readonly nightId: string | null
  /** What is told without these words of the host: what ships, and on one night before it what the host says on every night. */
  readonly shipped: Story | null
  readonly own: OwnWords
  readonly story: Story
}

/** The code of a language as it is written everywhere (`de`, `pt-BR`); undefined for a text that is the code of none. */
export function languageCode(text: string): string | undefined {
  try {
    const [code] = Intl.getCanonicalLocales(text.trim())
    return code !== undefined && languageName(code, 'en') !== undefined ? code : undefined
  } catch {
    return undefined
  }
}

/** What a language is called in another; undefined for a code of none. */
export const languageName = (code: string, inLanguage: string): string | undefined =>
  new Intl.DisplayNames([inLanguage], { type: 'language', fallback: 'none' }).of(code)

/** What is wrong with words as typed in, beside those that ship; [] when they can be kept. */
export function ownWordsProblems(draft: unknown, shipped: Story | null): Problem[] {
  if (!Value.Check(OwnWordsDraft, draft)) return schemaProblems(Value.Errors(OwnWordsDraft, draft), OwnWordsDraft)
  const count = faceWords(together({ key: '', language: '', shipped, own: ownWordsOf(draft, shipped) }))
  if (count <= MOST_FACE_WORDS) return []
  return [{ field: '', key: 'problem.face-long', values: { count, maximum: MOST_FACE_WORDS } }]
}

/** The parts of a draft that say something else than the words that ship, on one line each. */
export function ownWordsOf(draft: Static<typeof OwnWordsDraft>, shipped: Story | null): OwnWords {
  const written = STORY_PARTS.flatMap((part) => {
    const text = (draft[part] ?? '').replace(/[\s\p{Cc}]+/gu, ' ').trim()
    return text === '' || text === shipped?.[part] ? [] : [[part, text] as const]
  })
  return Object.fromEntries(written)
}

/** The host's words before those that ship, part by part. */
export function together({ key, language, shipped, own }: Omit<ToldWords, 'story' | 'nightId'>): Story {
  const sources = Object.fromEntries(Object.keys(own).map((part) => [part, BY_HOST]))
  return { ...(shipped ?? { ...UNTOLD, key, language }), ...own, sources: { ...shipped?.sources, ...sources } }
}

const UNTOLD = { see: '', lookFor: '', how: '', compare: '', answer: '', children: '', more: '' }
