import { LONGEST, languageName, type OwnWords, type ToldWords } from '../../tours/own-words.ts'
import {
  FACE_PARTS,
  faceWords,
  longestSentence,
  MOST_FACE_WORDS,
  MOST_SENTENCE_WORDS,
  STORY_PARTS,
  type StoryPart,
} from '../../tours/story-parts.ts'
import type { Words } from '../../words/words.ts'
import { type Field, type FormState, formFields, type ProblemList, problemList } from './form.ts'
import { backOf, hrefOf, queryOf, scopesOf, type WordsNight } from './own-words-night.ts'
import { daySheet, type Sheet, type SheetLink, type Viewer } from './sheet.ts'

interface PartField extends Field {
  /** The words that ship, where the host's stand in their place. */
  readonly shipped: { readonly label: string; readonly text: string } | null
}

interface WordsForm {
  readonly action: string
  readonly language: string
  readonly title: string
  readonly faceNote: string
  readonly problems: ProblemList | null
  /** Which kept sentences are too long to be said in one breath. */
  readonly warnings: readonly string[]
  readonly fields: readonly PartField[]
  readonly save: string
  readonly takeBack: { readonly action: string; readonly text: string; readonly hint: string } | null
}

export interface OwnWordsPage {
  readonly sheet: Sheet
  readonly title: string
  readonly intro: string
  readonly backHref: string
  readonly backText: string
  /** The night's words or those of every night; [] where no night is named, and for whoever may not write. */
  readonly scopes: readonly SheetLink[]
  readonly scopesLabel: string
  readonly action: string
  /** What the form of the language hands on. */
  readonly hidden: readonly { readonly name: string; readonly value: string }[]
  readonly languageField: Field
  readonly languageProblems: ProblemList | null
  readonly languageButton: string
  readonly languages: readonly SheetLink[]
  readonly languagesLabel: string
  /** Null for the host, whose form holds the same. */
  readonly told: ToldText | null
  /** Null for whoever may not write. */
  readonly form: WordsForm | null
}

/** The words as everyone reads them, in their language. */
interface ToldText {
  readonly title: string
  readonly language: string
  readonly parts: readonly { readonly label: string; readonly text: string }[]
  readonly emptyText: string | null
}

interface OwnWordsSubject {
  readonly name: string
  readonly told: ToldWords
  /** The languages in which anything is told of it. */
  readonly languages: readonly string[]
  /** What was typed and is wrong; null for the words as they are kept. */
  readonly state: FormState | null
  /** A code of a language that is none, as it was typed. */
  readonly strangeLanguage: string | null
  /** Null where no night is named. */
  readonly tonight: WordsNight | null
}

/** What is told of a thing in one language, and for the host the form that changes it. */
export function ownWordsPage(viewer: Viewer, subject: OwnWordsSubject): OwnWordsPage {
  const { words, mayHost } = viewer
  const { name, told, languages, strangeLanguage, tonight } = subject
  const title = words.say('words.title', { name })
  const typed = strangeLanguage ?? told.language
  const wrong = strangeLanguage === null ? [] : [{ field: 'language', key: 'problem.language-unknown' }]
  const languageState = { values: { language: typed }, problems: wrong }
  const languageField = formFields(words, languageState).text('language', {
    label: words.say('words.language'),
    hint: words.say('words.language-hint'),
  })
  return {
    sheet: daySheet(viewer, title, 'objects'),
    title,
    intro: words.say(mayHost ? 'words.intro' : 'words.intro-visitor'),
    ...backOf(words, told, name, tonight),
    scopes: mayHost && tonight ? scopesOf(words, told, tonight) : [],
    scopesLabel: words.say('words.scopes'),
    action: hrefOf(told.key),
    hidden: Object.entries(queryOf(tonight)).map(([key, value]) => ({ name: key, value })),
    languageField,
    languageProblems: problemList(words, languageState, [languageField]),
    languageButton: words.say('words.language-open'),
    languages: languages.map((language) => ({
      href: hrefOf(told.key, { language, ...queryOf(tonight) }),
      text: nameOf(words, language),
      isHere: language === told.language,
    })),
    languagesLabel: words.say('words.languages'),
    told: mayHost ? null : toldText(words, told),
    form: mayHost ? form(words, subject) : null,
  }
}

const nameOf = (words: Words, language: string): string => languageName(language, words.settings.language) ?? language

function toldText(words: Words, { language, story }: ToldWords): ToldText {
  const parts = STORY_PARTS.filter((part) => story[part] !== '')
  const named = { language: nameOf(words, language) }
  return {
    title: words.say('words.told', named),
    language,
    parts: parts.map((part) => ({ label: words.say(`words.part-${part}`), text: story[part] })),
    emptyText: parts.length > 0 ? null : words.say('words.empty', named),
  }
}

function form(words: Words, { told, state, tonight }: OwnWordsSubject): WordsForm {
  const { key, language, own, story } = told
  const query = { language, ...queryOf(tonight) }
  const shown = state ?? { values: valuesOf(story), problems: [] }
  const fields = STORY_PARTS.map((part) => partField(words, shown, told, part))
  const named = { language: nameOf(words, language) }
  return {
    action: hrefOf(key, query),
    language,
    title: words.say(told.nightId === null ? 'words.write' : 'words.write-night', named),
    faceNote: words.say('words.face', { count: faceWords(story), maximum: MOST_FACE_WORDS }),
    problems: problemList(words, shown, fields),
    warnings: state === null ? warningsOf(words, own) : [],
    fields,
    save: words.say('words.save'),
    takeBack: isEmpty(own)
      ? null
      : {
          action: hrefOf(key, query, '/back'),
          text: words.say('words.take-back', named),
          hint: takenBackText(words, told),
        },
  }
}

function takenBackText(words: Words, { shipped, nightId }: ToldWords): string {
  if (shipped === null) return words.say('words.take-back-none')
  return words.say(nightId === null ? 'words.take-back-shipped' : 'words.take-back-night')
}

const warningsOf = (words: Words, own: OwnWords): string[] =>
  FACE_PARTS.flatMap((part) => {
    const count = longestSentence(own[part] ?? '')
    if (count <= MOST_SENTENCE_WORDS) return []
    return [
      words.say('words.long-sentence', { part: words.say(`words.part-${part}`), count, maximum: MOST_SENTENCE_WORDS }),
    ]
  })

const isEmpty = (own: OwnWords): boolean => Object.keys(own).length === 0

const valuesOf = (story: ToldWords['story']): Readonly<Record<string, string>> =>
  Object.fromEntries(STORY_PARTS.map((part) => [part, story[part]]))

function partField(words: Words, state: FormState, { shipped, own, nightId }: ToldWords, part: StoryPart): PartField {
  const isFace = FACE_PARTS.some((it) => it === part)
  const field = formFields(words, state).text(part, {
    label: words.say(`words.part-${part}`),
    hint: words.say(isFace ? 'words.face-part' : `words.hint-${part}`, { maximum: LONGEST[part] }),
  })
  const text = own[part] === undefined ? '' : (shipped?.[part] ?? '')
  return {
    ...field,
    shipped: text === '' ? null : { label: words.say(nightId === null ? 'words.shipped' : 'words.otherwise'), text },
  }
}
