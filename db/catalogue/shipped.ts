import { readdirSync, readFileSync } from 'node:fs'
import type { Written } from './build.ts'
import { readLocalNames, readLocalTexts } from './local-names.ts'
import { readOutreach } from './outreach.ts'
import { readStories } from './stories.ts'
import { readTopics } from './topic-words.ts'
import { readWorldEvents } from './world-events.ts'

/** The languages in which something is told of the sky. */
const LANGUAGES = ['en', 'de'] as const

/** What people wrote for the catalogue as it ships: the outreach list, and in each language its stories, names, events and words to search by. */
export function shippedWriting(): Written {
  const outreach = readOutreach()
  return {
    outreach,
    stories: LANGUAGES.flatMap(readStories),
    events: byLanguage(readWorldEvents),
    names: byLanguage((language) => readLocalNames(language, outreach)),
    texts: byLanguage((language) => readLocalTexts(language, outreach)),
    topics: byLanguage(readTopics),
  }
}

const byLanguage = <Row>(read: (language: string) => readonly Row[]): Readonly<Record<string, readonly Row[]>> =>
  Object.fromEntries(LANGUAGES.map((language) => [language, read(language)]))

/** Everything that decides what a built catalogue holds, file by file: the tables, and the code that reads them. */
export function* shippedText(): Generator<Buffer> {
  for (const folder of ['./', './outreach/']) {
    const url = new URL(folder, import.meta.url)
    for (const name of readdirSync(url).sort()) {
      if (/\.(csv|sql|ts)$/.test(name)) yield readFileSync(new URL(name, url))
    }
  }
}
