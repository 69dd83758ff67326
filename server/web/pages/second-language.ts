import { languageName } from '../../tours/own-words.ts'
import type { Story } from '../../tours/target.ts'
import type { Option } from './form.ts'
import type { Viewer } from './sheet.ts'

/** The language that cards are printed in beside the reader's own, of those in which there are words; null for none. */
export interface SecondLanguage {
  readonly language: string | null
  readonly languages: readonly string[]
  readonly story: (key: string) => Story | undefined
}

/** The choice of a second language. */
export interface LanguageChoice {
  readonly action: string
  readonly label: string
  readonly hint: string
  readonly options: readonly Option[]
  readonly button: string
}

/** The choice among the languages in which there are words, or null where the reader's own is the only one. */
export function languageChoice(
  { words }: Viewer,
  { language, languages }: SecondLanguage,
  action: string,
): LanguageChoice | null {
  const own = words.settings.language
  const others = languages.filter((code) => code !== own)
  if (others.length === 0) return null
  const named = others.map((code) => ({ value: code, text: languageName(code, own) ?? code }))
  return {
    action,
    label: words.say('print.second'),
    hint: words.say('print.second-hint'),
    options: [{ value: '', text: words.say('print.second-none') }, ...named].map((option) => ({
      ...option,
      isChosen: option.value === (language ?? ''),
    })),
    button: words.say('print.second-show'),
  }
}

/** An address of the cards that keeps the second language. */
export const withSecond = (href: string, { language }: SecondLanguage): string =>
  language === null ? href : `${href}&second=${language}`
