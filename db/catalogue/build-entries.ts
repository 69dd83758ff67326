import type { Database } from 'better-sqlite3'
import { withoutIndex, writtenOut } from './designations.ts'
import { type Entry, type EntrySources, entries } from './entries.ts'
import { barred, foldText, joined } from './fold.ts'

/** Fills the tables that search and `find` read: entries, their aliases, and the text of both. */
export function buildEntries(db: Database, sources: EntrySources): void {
  const all = entries(sources)
  const add = db.prepare(
    `INSERT INTO entry (id, key, name, kind, constellation, magnitude, ra_deg, dec_deg, show)
     VALUES (@id, @key, @name, @kind, @constellation, @magnitude, @raDeg, @decDeg, @show)`,
  )
  const addText = db.prepare('INSERT INTO entry_text (rowid, name, other) VALUES (?, ?, ?)')
  const spellings = all.map(foldedNames)
  for (const [id, entry] of all.entries()) {
    const show = entry.show === null ? null : JSON.stringify(entry.show)
    add.run({ ...entry, id, show })
    const [name = '', ...others] = spellings[id] ?? []
    const constellation = sources.constellations.get(entry.constellation ?? '')?.name ?? ''
    addText.run(id, name, barred([...others, foldText(constellation)]))
  }
  buildAliases(db, all, spellings)
}

/** The folded name, then every other way to write the entry, folded. */
const foldedNames = ({ name, designations }: Entry): readonly string[] => [
  foldText(name),
  ...designations.map(foldText),
  ...designations.flatMap((designation) => writtenOut(designation) ?? []),
]

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
