import { languageName } from '../../tours/own-words.ts'
import type { Words, WordsSettings } from '../../words/words.ts'
import type { Option } from './form.ts'
import { byLamp, daySheet, type Sheet, type Viewer } from './sheet.ts'

/** One thing to choose, with all there is to choose from. */
interface ReadingChoice {
  readonly name: string
  readonly label: string
  /** Each with the language that it is said in, where that is another one. */
  readonly options: readonly (Option & { readonly language: string | null })[]
}

export interface ReadingPage {
  readonly sheet: Sheet
  readonly title: string
  readonly intro: string
  readonly isLamp: boolean
  readonly choices: readonly ReadingChoice[]
  readonly from: string
  readonly save: string
  /** Where the reader came from, once something is chosen. */
  readonly back: { readonly href: string; readonly text: string } | null
  /** For the host: the same for everybody who has chosen nothing. */
  readonly usual: { readonly title: string; readonly said: string; readonly save: string; readonly note: string } | null
}

interface ReadingSubject {
  readonly options: Readonly<Record<'lang' | 'units' | 'hours', readonly string[]>>
  readonly usual: WordsSettings
  /** The page that the reader came from: an address of this service. */
  readonly from: string
  readonly hasChosen: boolean
  readonly look: 'day' | 'lamp'
}

/** In which language, units and clock somebody reads. */
export function readingPage(viewer: Viewer, subject: ReadingSubject): ReadingPage {
  const { words } = viewer
  const { usual, from, hasChosen, look } = subject
  const title = words.say('reading.title')
  const sheet = daySheet(viewer, title, null)
  return {
    sheet: look === 'lamp' ? byLamp(sheet) : sheet,
    title,
    intro: words.say('reading.intro'),
    isLamp: look === 'lamp',
    choices: choicesOf(words, subject),
    from,
    save: words.say('reading.save'),
    back: hasChosen ? { href: from, text: words.say('reading.back') } : null,
    usual: viewer.mayHost
      ? {
          title: words.say('reading.usual-title'),
          said: words.say('reading.usual', { said: settingsText(words, usual) }),
          save: words.say('reading.save-usual'),
          note: words.say('reading.usual-note'),
        }
      : null,
  }
}

function choicesOf(words: Words, { options }: ReadingSubject): readonly ReadingChoice[] {
  const { language, units, hours12 } = words.settings
  const chosen = { lang: language, units, hours: hours12 ? '12' : '24' }
  return (['lang', 'units', 'hours'] as const).map((name) => ({
    name,
    label: words.say(`reading.${name}`),
    options: options[name].map((value) => ({
      value,
      text: name === 'lang' ? ownName(value) : words.say(`reading.${name}-${value}`),
      isChosen: value === chosen[name],
      language: name === 'lang' && value !== language ? value : null,
    })),
  }))
}

/** A language as its own speakers call it. */
const ownName = (code: string): string => languageName(code, code) ?? code

const settingsText = (words: Words, { language, units, hours12 }: WordsSettings): string =>
  words.list([
    ownName(language),
    words.say(`reading.units-${units}`),
    words.say(`reading.hours-${hours12 ? '12' : '24'}`),
  ])
