import type { Night } from '../../tours/night.ts'
import type { ToldWords } from '../../tours/own-words.ts'
import type { Words } from '../../words/words.ts'
import type { SheetLink } from './sheet.ts'

/** For which nights the words are, and the night to come back to. */
export interface WordsNight {
  readonly night: Pick<Night, 'id' | 'title'>
  readonly isAlways: boolean
}

/** The address of the words of a thing, or of what is done with them. */
export const hrefOf = (key: string, query: Readonly<Record<string, string>> = {}, act = ''): string =>
  `/objects/${key}/words${act}${Object.keys(query).length === 0 ? '' : `?${new URLSearchParams(query)}`}`

/** What an address asks so that it keeps the night. */
export const queryOf = (tonight: WordsNight | null): Readonly<Record<string, string>> =>
  tonight === null ? {} : { night: tonight.night.id, ...(tonight.isAlways ? { for: 'always' } : {}) }

/** The way back: to the cards of the night, or to the thing. */
export const backOf = (words: Words, { key }: ToldWords, name: string, tonight: WordsNight | null) =>
  tonight === null
    ? { backHref: `/objects/${key}`, backText: name }
    : { backHref: `/nights/${tonight.night.id}/print/cards`, backText: words.say('words.back-cards') }

/** The words of the night, and those of every night. */
export const scopesOf = (words: Words, { key, language }: ToldWords, { night, isAlways }: WordsNight): SheetLink[] =>
  [false, true].map((always) => ({
    href: hrefOf(key, { language, ...queryOf({ night, isAlways: always }) }),
    text: words.say(always ? 'words.always' : 'words.this-night', { title: night.title }),
    isHere: always === isAlways,
  }))
