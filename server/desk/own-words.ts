import { Value } from 'typebox/value'
import type { ObjectStore } from '../../db/objects.ts'
import type { OwnWordStore } from '../../db/own-words.ts'
import { invalid, notFound } from '../errors.ts'
import type { Night } from '../tours/night.ts'
import {
  languageCode,
  OwnWordsDraft,
  ownWordsOf,
  ownWordsProblems,
  type ToldWords,
  together,
} from '../tours/own-words.ts'
import type { ShowObject, Story } from '../tours/target.ts'

/** Words that a host writes of any thing of the list, in the place of those that ship: for every night, or for one alone when it is named. */
export interface WordDesk {
  /** What is told of a thing in a language, whoever wrote it; empty parts where nobody did. */
  of(key: string, language: string, nightId?: string): ToldWords
  /** The languages in which anything is told, and those in which something is told of one thing; on a night, its own among them. */
  languages(nightId?: string): readonly string[]
  languagesOf(key: string, nightId?: string): readonly string[]
  /** Keeps a host's words; parts left empty, or the same as what is told without them, stay as they are. */
  put(key: string, language: string, draft: unknown, nightId?: string): ToldWords
  /** Lets what was told before stand again. */
  takeBack(key: string, language: string, nightId?: string): void
}

interface Needs {
  readonly objects: Pick<ObjectStore, 'story' | 'storyLanguages'>
  readonly ownWords: OwnWordStore
}

interface WordNeeds extends Needs {
  readonly show: (key: string) => ShowObject | undefined
  readonly findNight: (id: string) => Night
}

/** What is told of a thing in a language: the host's words for the night when it is named, before those for every night, before those that ship; undefined where there are none. */
export function storyTeller({ objects, ownWords }: Needs) {
  return function tell(key: string, language: string, nightId?: string): Story | undefined {
    const shipped = (nightId === undefined ? objects.story(key, language) : tell(key, language)) ?? null
    const own = ownWords.find(key, language, nightId)
    return Object.keys(own).length === 0 ? (shipped ?? undefined) : together({ key, language, shipped, own })
  }
}

/** Keeping the words of a host. */
export function wordDesk({ objects, ownWords, show, findNight }: WordNeeds): WordDesk {
  const tell = storyTeller({ objects, ownWords })
  const of = (key: string, asked: string, nightId?: string): ToldWords => {
    if (show(key) === undefined) throw notFound('object')
    if (nightId !== undefined) findNight(nightId)
    const language = languageCode(asked)
    if (language === undefined) throw invalid([{ field: 'language', key: 'problem.language-unknown' }])
    const shipped = (nightId === undefined ? objects.story(key, language) : tell(key, language)) ?? null
    const told = { key, language, nightId: nightId ?? null, shipped, own: ownWords.find(key, language, nightId) }
    return { ...told, story: together(told) }
  }
  const sorted = (...lists: readonly (readonly string[])[]) => [...new Set(lists.flat())].sort()

  return {
    of,
    languages: (nightId) =>
      sorted(objects.storyLanguages(), ownWords.languages(nightId === undefined ? {} : { nightId })),
    languagesOf: (key, nightId) =>
      sorted(
        objects.storyLanguages().filter((it) => objects.story(key, it)),
        ownWords.languages(nightId === undefined ? { key } : { key, nightId }),
      ),
    put(key, asked, draft, nightId) {
      const { language, shipped } = of(key, asked, nightId)
      const problems = ownWordsProblems(draft, shipped)
      if (problems.length > 0 || !Value.Check(OwnWordsDraft, draft)) throw invalid(problems)
      ownWords.put(key, language, ownWordsOf(draft, shipped), nightId)
      return of(key, language, nightId)
    },
    takeBack: (key, asked, nightId) => ownWords.put(key, of(key, asked, nightId).language, {}, nightId),
  }
}
