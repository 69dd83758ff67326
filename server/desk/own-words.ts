import { Value } from 'typebox/value'
import type { ObjectStore } from '../../db/objects.ts'
import type { OwnWordStore } from '../../db/own-words.ts'
import { invalid, notFound } from '../errors.ts'
import {
  languageCode,
  OwnWordsDraft,
  ownWordsOf,
  ownWordsProblems,
  type ToldWords,
  together,
} from '../tours/own-words.ts'
import type { ShowObject, Story } from '../tours/target.ts'

/** Words that a host writes of any thing of the list, in the place of those that ship. */
export interface WordDesk {
  /** What is told of a thing in a language, whoever wrote it; empty parts where nobody did. */
  of(key: string, language: string): ToldWords
  /** The languages in which anything is told, and those in which something is told of one thing. */
  languages(): readonly string[]
  languagesOf(key: string): readonly string[]
  /** Keeps a host's words; parts left empty, or the same as those that ship, stay as they ship. */
  put(key: string, language: string, draft: unknown): ToldWords
  /** Lets the words that ship stand again. */
  takeBack(key: string, language: string): void
}

interface Needs {
  readonly objects: Pick<ObjectStore, 'story' | 'storyLanguages'>
  readonly ownWords: OwnWordStore
}

interface WordNeeds extends Needs {
  readonly show: (key: string) => ShowObject | undefined
}

/** What is told of a thing in a language, the host's words before those that ship; undefined where there are none. */
export const storyTeller =
  ({ objects, ownWords }: Needs) =>
  (key: string, language: string): Story | undefined => {
    const shipped = objects.story(key, language) ?? null
    const own = ownWords.find(key, language)
    return Object.keys(own).length === 0 ? (shipped ?? undefined) : together({ key, language, shipped, own })
  }

/** Keeping the words of a host. */
export function wordDesk({ objects, ownWords, show }: WordNeeds): WordDesk {
  const of = (key: string, asked: string): ToldWords => {
    if (show(key) === undefined) throw notFound('object')
    const language = languageCode(asked)
    if (language === undefined) throw invalid([{ field: 'language', key: 'problem.language-unknown' }])
    const told = { key, language, shipped: objects.story(key, language) ?? null, own: ownWords.find(key, language) }
    return { ...told, story: together(told) }
  }

  return {
    of,
    languages: () => [...new Set([...objects.storyLanguages(), ...ownWords.languages()])].sort(),
    languagesOf: (key) =>
      [
        ...new Set([...objects.storyLanguages().filter((it) => objects.story(key, it)), ...ownWords.languages(key)]),
      ].sort(),
    put(key, asked, draft) {
      const { language, shipped } = of(key, asked)
      const problems = ownWordsProblems(draft, shipped)
      if (problems.length > 0 || !Value.Check(OwnWordsDraft, draft)) throw invalid(problems)
      ownWords.put(key, language, ownWordsOf(draft, shipped))
      return of(key, language)
    },
    takeBack: (key, asked) => ownWords.put(key, of(key, asked).language, {}),
  }
}
