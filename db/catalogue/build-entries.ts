import type { Database } from 'better-sqlite3'
import { withoutIndex } from './designations.ts'
import { type Entry, type EntrySources, entries } from './entries.ts'
import { type EntryText, entryText, foldedNames, wordsOf } from './entry-text.ts'
import { foldText, joined } from './fold.ts'
import type { LocalName } from './local-names.ts'
import type { Topics } from './topics.ts'

interface Named {
  readonly name: string
  readonly designations?: readonly string[]
}

interface InWords {
  readonly localNames: readonly LocalName[]
  readonly topics: Topics
}

/** Fills the tables that search and `find` read: entries, their aliases, the text of both, and its words. */
export function buildEntries(db: Database, sources: EntrySources & InWords): void {
  const all = entries(sources)
  const add = db.prepare(
    `INSERT INTO entry (id, key, name, kind, constellation, magnitude, ra_deg, dec_deg, others, show)
     VALUES (@id, @key, @name, @kind, @constellation, @magnitude, @raDeg, @decDeg, @others, @show)`,
  )
  const addText = db.prepare('INSERT INTO entry_text (rowid, name, other, topics) VALUES (@id, @name, @other, @topics)')
  const local = localOf(sources)
  const names = all.map((entry) => [...foldedNames(entry), ...local(entry)])
  const texts = all.map((entry, id) =>
    entryText(entry, [...(names[id] ?? []), ...(entry.show?.features ?? []).flatMap(local)], sources.topics),
  )
  for (const [id, entry] of all.entries()) {
    const show = entry.show === null ? null : JSON.stringify(entry.show)
    add.run({ ...entry, id, others: entry.designations.join('; '), show })
    addText.run({ ...texts[id], id })
  }
  buildSpellings(db, texts)
  buildAliases(db, all, names)
}

/** How a thing, or a feature of one, is called in other languages, folded. */
function localOf({ localNames }: InWords): (thing: Named) => readonly string[] {
  const called = new Map<string, string[]>()
  for (const { name, called: other } of localNames) called.set(name, [...(called.get(name) ?? []), foldText(other)])
  return ({ name, designations = [] }) => [name, ...designations].flatMap((each) => called.get(each) ?? [])
}

/** Every word of the texts that a mistyped one may stand for. */
function buildSpellings(db: Database, texts: readonly EntryText[]): void {
  const add = db.prepare('INSERT INTO spelling (word) VALUES (?)')
  for (const word of [...new Set(texts.flatMap(wordsOf))].sort()) add.run(word)
}

/** An alias belongs to the first that claims it: keys before names, names before letters without their index, and within each in search order. */
function buildAliases(db: Database, all: readonly Entry[], spellings: readonly (readonly string[])[]): void {
  const owners = new Map<string, number>()
  const claims: readonly ((id: number, entry: Entry) => readonly string[])[] = [
    (_id, { key }) => [foldText(key)],
    (id) => spellings[id] ?? [],
    (_id, { designations }) => designations.flatMap((designation) => withoutIndex(designation) ?? []).map(foldText),
  ]
  for (const claimed of claims) {
    for (const [id, entry] of all.entries()) {
      for (const alias of claimed(id, entry).map(joined)) {
        if (alias !== '' && !owners.has(alias)) owners.set(alias, id)
      }
    }
  }
  const add = db.prepare('INSERT INTO alias (folded, entry_id) VALUES (?, ?)')
  for (const [alias, id] of [...owners].sort(([a], [b]) => (a < b ? -1 : 1))) add.run(alias, id)
}
