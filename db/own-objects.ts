import type { Database } from 'better-sqlite3'
import { Compile } from 'typebox/compile'
import { OwnObjectDraft, type OwnThing, ownObject } from '../server/tours/own-object.ts'
import type { ShowObject } from '../server/tours/target.ts'
import { foldAlias, foldText } from './catalogue/fold.ts'

export type OwnObjectStore = ReturnType<typeof ownObjectStore>

interface Row {
  readonly key: string
  readonly data: string
  readonly isListed: number
}

interface BeforeRow {
  readonly key: string
  readonly data: string
}

interface BroughtThing extends Pick<OwnThing, 'key' | 'isListed' | 'draft'> {
  readonly before: readonly { readonly untilAt: string; readonly draft: OwnObjectDraft }[]
}

const draftCheck = Compile(OwnObjectDraft)

/**
 * The things that a host entered. What is taken off the list loses its name only: programmes and marks of before still
 * say what it was. All of them are read once and kept until the next change, since every page and every job asks.
 */
export function ownObjectStore(db: Database) {
  const statements = prepare(db)
  let memo: ReturnType<typeof shelfOf> | undefined
  const shelf = () => {
    memo ??= shelfOf(statements.all.all())
    return memo
  }
  const changing =
    <Args extends readonly unknown[], Result>(act: (...args: Args) => Result) =>
    (...args: Args): Result => {
      memo = undefined
      return db.transaction(() => act(...args))()
    }
  const add = (key: string, draft: OwnObjectDraft): void => {
    statements.insert.run(key, JSON.stringify(draft))
    statements.insertName.run(foldText(draft.name), key)
  }

  return {
    /** Keeps things under their keys, all or none, each with the name by which it is looked up. */
    add: changing((drafts: ReadonlyMap<string, OwnObjectDraft>): void => {
      for (const [key, draft] of drafts) add(key, draft)
    }),
    /** Puts a draft in the place of another; what was there is still known to have held until that instant. */
    change: changing((key: string, draft: OwnObjectDraft, at: Date): void => {
      statements.keepBefore.run(at.toISOString(), key)
      statements.update.run(JSON.stringify(draft), key)
      statements.rename.run(foldText(draft.name), key)
    }),
    /** Takes a thing off the list; true when it was on it. */
    retire: changing((key: string): boolean => statements.unname.run(key).changes > 0),
    /** Puts a thing that was taken off back on the list. */
    bringBack: changing((key: string, name: string): void => {
      statements.insertName.run(foldText(name), key)
    }),
    /** Keeps a thing that comes from elsewhere, with all that it was before. */
    bring: changing(({ key, isListed, draft, before }: BroughtThing): void => {
      statements.insert.run(key, JSON.stringify(draft))
      if (isListed) statements.insertName.run(foldText(draft.name), key)
      for (const { untilAt, draft: was } of before) statements.insertBefore.run(key, untilAt, JSON.stringify(was))
    }),
    /** What a thing was until it was changed, the first first. */
    statesBefore: (key: string): BroughtThing['before'] =>
      statements.statesBefore.all(key).map(({ untilAt, data }) => ({ untilAt, draft: draftOf(data) })),
    /** All that was ever entered, in the order of keys. */
    all: (): readonly OwnThing[] => shelf().things,
    /** What is on the list, in the order of keys. */
    listed: (): readonly ShowObject[] => shelf().listed,
    /** All that was ever entered, each as it stood at an instant or, when it came later, as it was first entered. */
    asOf(at: Date): readonly ShowObject[] {
      const before = new Map(statements.before.all(at.toISOString()).map(({ key, data }) => [key, data]))
      return shelf().things.map(({ key, object }) => {
        const data = before.get(key)
        return data === undefined ? object : ownObject(draftOf(data), key)
      })
    },
    /** The thing of a key, on the list or taken off it; undefined when there was none. */
    find: (key: string): OwnThing | undefined => shelf().byKey.get(key),
    /** The thing on the list that is called so, whatever the accents, blanks and capitals; undefined when none is. */
    called: (name: string): OwnThing | undefined => shelf().byName.get(foldAlias(name)),
  }
}

function prepare(db: Database) {
  return {
    insert: db.prepare<[string, string]>('INSERT INTO object (key, data) VALUES (?, ?)'),
    insertName: db.prepare<[string, string]>('INSERT INTO object_name (name, object_key) VALUES (?, ?)'),
    update: db.prepare<[string, string]>('UPDATE object SET data = ? WHERE key = ?'),
    rename: db.prepare<[string, string]>('UPDATE object_name SET name = ? WHERE object_key = ?'),
    unname: db.prepare<[string]>('DELETE FROM object_name WHERE object_key = ?'),
    keepBefore: db.prepare<[string, string]>(
      'INSERT OR IGNORE INTO object_before (object_key, until_at, data) SELECT key, ?, data FROM object WHERE key = ?',
    ),
    insertBefore: db.prepare<[string, string, string]>(
      'INSERT INTO object_before (object_key, until_at, data) VALUES (?, ?, ?)',
    ),
    statesBefore: db.prepare<[string], { readonly untilAt: string; readonly data: string }>(
      'SELECT until_at AS untilAt, data FROM object_before WHERE object_key = ? ORDER BY until_at',
    ),
    all: db.prepare<[], Row>(
      `SELECT key, data, EXISTS (SELECT 1 FROM object_name WHERE object_key = key) AS isListed FROM object ORDER BY key`,
    ),
    before: db.prepare<[string], BeforeRow>(
      `SELECT object_key AS key, data FROM object_before AS one WHERE until_at =
       (SELECT min(until_at) FROM object_before WHERE object_key = one.object_key AND until_at > ?)`,
    ),
  }
}

const draftOf = (data: string): OwnObjectDraft => draftCheck.Parse(JSON.parse(data))

function shelfOf(rows: readonly Row[]) {
  const things = rows.map(({ key, data, isListed }): OwnThing => {
    const draft = draftOf(data)
    return { key, isListed: isListed === 1, draft, object: ownObject(draft, key) }
  })
  const onList = things.filter((thing) => thing.isListed)
  return {
    things,
    listed: onList.map(({ object }) => object),
    byKey: new Map(things.map((thing) => [thing.key, thing])),
    byName: new Map(onList.map((thing) => [foldAlias(thing.draft.name), thing])),
  }
}
