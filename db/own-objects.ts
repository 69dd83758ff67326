import type { Database } from 'better-sqlite3'
import type { ObjectHit, ShowObject } from '../server/tours/target.ts'
import { foldText, joined } from './catalogue/fold.ts'
import { showObjectOf } from './object-rows.ts'
import { queryWords } from './search.ts'

export type OwnObjectStore = ReturnType<typeof ownObjectStore>

interface NamedRow {
  readonly name: string
  readonly data: string
}

/**
 * Every statement about the things that a host entered. What is taken off the list loses its names only: programmes and
 * marks of before still say what it was.
 */
export function ownObjectStore(db: Database) {
  const insert = db.prepare<[string, string]>('INSERT INTO object (key, data) VALUES (?, ?)')
  const insertName = db.prepare<[string, string]>('INSERT INTO object_name (name, object_key) VALUES (?, ?)')
  const unname = db.prepare<[string]>('DELETE FROM object_name WHERE object_key = ?')
  const byKey = db.prepare<[string], string>('SELECT data FROM object WHERE key = ?').pluck()
  const ever = db.prepare<[], string>('SELECT data FROM object ORDER BY key').pluck()
  const named = db.prepare<[], NamedRow>(
    'SELECT name, data FROM object_name JOIN object ON key = object_key ORDER BY key, name',
  )
  const find = (key: string): ShowObject | undefined => {
    const data = byKey.get(key)
    return data === undefined ? undefined : showObjectOf(data)
  }

  return {
    /** Keeps an object and the name by which it is looked up. */
    add: db.transaction((object: ShowObject): void => {
      insert.run(object.key, JSON.stringify(object))
      insertName.run(foldText(object.name), object.key)
    }),
    /** Takes an object off the list; true when it was on it. */
    remove: (key: string): boolean => unname.run(key).changes > 0,
    /** What is on the list, in the order of keys. */
    all: (): readonly ShowObject[] => named.all().map(({ data }) => showObjectOf(data)),
    /** The same with all that was taken off it. */
    ever: (): readonly ShowObject[] => ever.all().map(showObjectOf),
    /** The object of a key, on the list or taken off it; undefined when there was none. */
    find,
    /** The object on the list that is called so, whatever the accents, blanks and capitals; undefined when none is. */
    called(name: string): ShowObject | undefined {
      const wanted = joined(foldText(name))
      const row = named.all().find((it) => joined(it.name) === wanted)
      return row && showObjectOf(row.data)
    },
    /** What on the list has every word of the query at the start of a word of its name; [] without a word. */
    search(query: string): readonly ObjectHit[] {
      const words = queryWords(query)
      if (words.length === 0) return []
      return named
        .all()
        .filter(({ name }) => words.every((word) => ` ${name}`.includes(` ${word}`)))
        .map(({ data }) => hitOf(showObjectOf(data)))
    },
  }
}

const hitOf = ({ key, name, kind, constellation, magnitude, raDeg, decDeg }: ShowObject): ObjectHit => ({
  key,
  name,
  kind,
  constellation,
  magnitude,
  raDeg,
  decDeg,
  isOutreach: true,
})
