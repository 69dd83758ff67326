import { languageName } from '../../tours/own-words.ts'
import type { Story } from '../../tours/target.ts'
import type { CardSelect } from './card-choice.ts'
import type { Viewer } from './sheet.ts'

/** The language that cards are printed in beside the reader's own, of those in which there are words; null for none. */
export interface SecondLanguage {
  readonly language: string | null
  readonly languages: readonly string[]
  readonly story: (key: string) => Story | undefined
}

/** The choice among the languages in which there are words; [] where the reader's own is the only one. */
export function languageSelect({ words }: Viewer, { language, languages }: SecondLanguage): readonly CardSelect[] {
  const own = words.settings.language
  const others = languages.filter((code) => code !== own)
  if (others.length === 0) return []
  const named = others.map((code) => ({ value: code, text: languageName(code, own) ?? code }))
  const options = [{ value: '', text: words.say('print.second-none') }, ...named].map((option) => ({
    ...option,
    isChosen: option.value === (language ?? ''),
  }))
  return [{ name: 'second', label: words.say('print.second'), hint: words.say('print.second-hint'), options }]
}

/** What an address asks so that it keeps the second language. */
export const secondAsked = ({ language }: SecondLanguage): Readonly<Record<string, string>> =>
  language === null ? {} : { second: language }
