import type { Database } from 'better-sqlite3'
import type { OwnWords } from '../server/tours/own-words.ts'
import { STORY_PARTS } from '../server/tours/story-parts.ts'

export type OwnWordStore = ReturnType<typeof ownWordStore>

interface Row {
  readonly field: string
  readonly text: string
}

/** Every statement about the words that a host wrote in the place of those that ship. */
export function ownWordStore(db: Database) {
  const rows = db.prepare<[string, string], Row>('SELECT field, text FROM story WHERE object_key = ? AND language = ?')
  const remove = db.prepare<[string, string]>('DELETE FROM story WHERE object_key = ? AND language = ?')
  const insert = db.prepare<[string, string, string, string]>(
    `INSERT INTO story (object_key, language, field, text, source) VALUES (?, ?, ?, ?, 'written by the host')`,
  )
  const languages = db.prepare<[], string>('SELECT DISTINCT language FROM story ORDER BY language').pluck()
  const languagesOf = db
    .prepare<[string], string>('SELECT DISTINCT language FROM story WHERE object_key = ? ORDER BY language')
    .pluck()

  return {
    /** What is written of a thing in a language. */
    find(key: string, language: string): OwnWords {
      const found = new Map(rows.all(key, language).map(({ field, text }) => [field, text]))
      return Object.fromEntries(STORY_PARTS.flatMap((part) => (found.has(part) ? [[part, found.get(part)]] : [])))
    },
    /** Puts words in the place of all that were written of the thing in that language before. */
    put: db.transaction((key: string, language: string, words: OwnWords): void => {
      remove.run(key, language)
      for (const [part, text] of Object.entries(words)) insert.run(key, language, part, text)
    }),
    /** The languages in which a host has written anything; of one thing alone when its key is given. */
    languages: (key?: string): readonly string[] => (key === undefined ? languages.all() : languagesOf.all(key)),
  }
}
