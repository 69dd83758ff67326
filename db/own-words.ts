import type { Database } from 'better-sqlite3'
import { BY_HOST, type OwnWords } from '../server/tours/own-words.ts'
import { STORY_PARTS } from '../server/tours/story-parts.ts'

export type OwnWordStore = ReturnType<typeof ownWordStore>

interface Row {
  readonly field: string
  readonly text: string
}

/** Every statement about the words that a host wrote in the place of those that ship: those of every night, and those of one. */
export function ownWordStore(db: Database) {
  const always = storyStatements(db)
  const nightly = nightStatements(db)

  return {
    /** What is written of a thing in a language: for every night, or for one alone. */
    find: (key: string, language: string, nightId?: string): OwnWords =>
      wordsOf(nightId === undefined ? always.rows.all(key, language) : nightly.rows.all(nightId, key, language)),
    /** Puts words in the place of all that were written before of the thing, in that language, for every night or for one alone. */
    put: db.transaction((key: string, language: string, words: OwnWords, nightId?: string): void => {
      if (nightId === undefined) always.remove.run(key, language)
      else nightly.remove.run(nightId, key, language)
      for (const [part, text] of Object.entries(words)) {
        if (nightId === undefined) always.insert.run(key, language, part, text, BY_HOST)
        else nightly.insert.run(nightId, key, language, part, text)
      }
    }),
    /** The keys of all things of which a host has written anything for every night, or for one alone. */
    keys: (nightId?: string): readonly string[] =>
      nightId === undefined ? always.keys.all() : nightly.keys.all(nightId),
    /** The languages in which a host has written anything for every night, and for one when it is given; of one thing alone when its key is. */
    languages({ key, nightId }: { readonly key?: string; readonly nightId?: string } = {}): readonly string[] {
      const [known, night] = [key ?? null, nightId ?? null]
      return [...new Set([...always.languages.all(known), ...nightly.languages.all(night, known)])].sort()
    },
  }
}

const wordsOf = (rows: readonly Row[]): OwnWords => {
  const found = new Map(rows.map(({ field, text }) => [field, text]))
  return Object.fromEntries(STORY_PARTS.flatMap((part) => (found.has(part) ? [[part, found.get(part)]] : [])))
}

const storyStatements = (db: Database) => ({
  keys: db.prepare<[], string>('SELECT DISTINCT object_key FROM story ORDER BY object_key').pluck(),
  rows: db.prepare<[string, string], Row>('SELECT field, text FROM story WHERE object_key = ? AND language = ?'),
  remove: db.prepare<[string, string]>('DELETE FROM story WHERE object_key = ? AND language = ?'),
  insert: db.prepare<[string, string, string, string, string]>(
    'INSERT INTO story (object_key, language, field, text, source) VALUES (?, ?, ?, ?, ?)',
  ),
  languages: db
    .prepare<[string | null], string>('SELECT DISTINCT language FROM story WHERE object_key = ifnull(?, object_key)')
    .pluck(),
})

const nightStatements = (db: Database) => ({
  keys: db
    .prepare<[string], string>('SELECT DISTINCT object_key FROM night_story WHERE night_id = ? ORDER BY object_key')
    .pluck(),
  rows: db.prepare<[string, string, string], Row>(
    'SELECT field, text FROM night_story WHERE night_id = ? AND object_key = ? AND language = ?',
  ),
  remove: db.prepare<[string, string, string]>(
    'DELETE FROM night_story WHERE night_id = ? AND object_key = ? AND language = ?',
  ),
  insert: db.prepare<[string, string, string, string, string]>(
    'INSERT INTO night_story (night_id, object_key, language, field, text) VALUES (?, ?, ?, ?, ?)',
  ),
  languages: db
    .prepare<[string | null, string | null], string>(
      'SELECT DISTINCT language FROM night_story WHERE night_id = ? AND object_key = ifnull(?, object_key)',
    )
    .pluck(),
})
