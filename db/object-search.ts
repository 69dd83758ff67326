import type { Database } from 'better-sqlite3'
import type { ObjectHit, ShowObject } from '../server/tours/target.ts'
import { type EntryText, entryText, foldedNames, otherNames, wordsOf } from './catalogue/entry-text.ts'
import { otherReadings } from './catalogue/spelling.ts'
import { allTopics, type Topics } from './catalogue/topics.ts'
import {
  firstOf,
  holds,
  looseTerms,
  matchOf,
  queryWords,
  startTerms,
  type Term,
  tellingWords,
  topicTerms,
  wordTerms,
} from './search.ts'

/** A row of the table of entries. */
export interface HitRow extends Omit<ObjectHit, 'isOutreach' | 'called'> {
  readonly id: number
  readonly isOutreach: number
}

const HIT = `entry.id, entry.key, entry.name, kind, constellation, magnitude, ra_deg AS raDeg, dec_deg AS decDeg,
  show IS NOT NULL AS isOutreach`

/** The row that an alias, folded and without blanks, belongs to. */
export const byAliasIn = (db: Database) =>
  db.prepare<[string], HitRow>(
    `SELECT ${HIT} FROM catalogue.alias JOIN catalogue.entry ON entry.id = entry_id WHERE folded = ?`,
  )

/** A row as the floors above know it. */
export const hitOf = ({ id: _id, isOutreach, ...hit }: HitRow): ObjectHit => ({ ...hit, isOutreach: isOutreach === 1 })

/** A question in the words of one way to read it, folded. */
type Reading = readonly string[]

/** Search in the catalogue and among things that stand in no table; `show` answers the outreach object of a key. */
export function objectSearch(db: Database, show: (key: string) => ShowObject | undefined) {
  const { byAlias, matching, topics, small, spellings } = prepare(db)
  const phrases = allTopics(topics)
  const tellingOf = (words: Reading): Reading => tellingWords(words, small)
  const textOf = (object: ShowObject): EntryText => entryText({ ...object, show: object }, foldedNames(object), topics)

  function rows(readings: readonly Reading[], limit: number): readonly HitRow[] {
    const telling = readings.map(tellingOf)
    const having = (termsOf: (words: Reading) => readonly Term[]) => (most: number) =>
      matching(telling.map(termsOf), most)
    const found = firstOf(limit, [
      () => readings.flatMap((words) => byAlias.all(words.join(''))),
      (most) => matching(readings.map(startTerms), most),
      having((words) => topicTerms(words, phrases)),
      having((words) => wordTerms(words)),
    ])
    return found.length > 0 ? found : having(looseTerms)(limit)
  }

  function hits(readings: readonly Reading[], limit: number, own: readonly ShowObject[]): readonly ObjectHit[] {
    const ours = own.filter((object) => readings.some((words) => holds(textOf(object), wordTerms(tellingOf(words)))))
    const theirs = rows(readings, limit).map((row) => withCalled(hitOf(row), readings))
    return [...ours.map(ownHit), ...theirs].slice(0, limit)
  }

  function withCalled(hit: ObjectHit, readings: readonly Reading[]): ObjectHit {
    const object = show(hit.key)
    const called = object && readings.flatMap((words) => calledIn(object, textOf(object), tellingOf(words)))[0]
    return called === undefined ? hit : { ...hit, called }
  }

  return (query: string, limit: number, own: readonly ShowObject[]): readonly ObjectHit[] => {
    const words = queryWords(query)
    if (words.length === 0) return []
    const exact = hits([words], limit, own)
    if (exact.length > 0) return exact
    const known = new Set([...spellings, ...own.flatMap((object) => wordsOf(textOf(object)))])
    return hits(otherReadings(words, known), limit, own)
  }
}

/** The designation or part that is meant where the telling words say more than name, kind and constellation do. */
function calledIn(object: ShowObject, text: EntryText, telling: Reading): readonly string[] {
  const rest = telling.filter((word) => !holds({ ...text, other: '' }, looseTerms([word])))
  if (rest.length === 0) return []
  const meant = otherNames(object).find(({ folded }) => holds({ name: folded, other: '', topics: '' }, wordTerms(rest)))
  return meant === undefined ? [] : [meant.said]
}

/** A thing of the outreach list, or of the host's, as search answers it. */
export const ownHit = ({ key, name, kind, constellation, magnitude, raDeg, decDeg }: ShowObject): ObjectHit => ({
  ...{ key, name, kind, constellation, magnitude, raDeg, decDeg },
  isOutreach: true,
})

function prepare(db: Database) {
  const match = db.prepare<[string, number], HitRow>(
    `SELECT ${HIT} FROM catalogue.entry_text JOIN catalogue.entry ON entry.id = entry_text.rowid
     WHERE entry_text MATCH ? ORDER BY entry_text.rowid LIMIT ?`,
  )
  return {
    byAlias: byAliasIn(db),
    /** Rows that have all the terms of one of the lists. */
    matching(lists: readonly (readonly Term[])[], limit: number): readonly HitRow[] {
      const asked = lists.filter(({ length }) => length > 0).map((terms) => `(${matchOf(terms)})`)
      return asked.length === 0 ? [] : match.all(asked.join(' OR '), limit)
    },
    topics: topicsIn(db),
    small: new Set(db.prepare<[], string>('SELECT word FROM catalogue.small_word').pluck().all()),
    spellings: db.prepare<[], string>('SELECT word FROM catalogue.spelling').pluck().all(),
  }
}

function topicsIn(db: Database): Topics {
  const topics = new Map<string, string[]>()
  const rows = db.prepare<[], { about: string; phrase: string }>(
    'SELECT about, phrase FROM catalogue.topic ORDER BY id',
  )
  for (const { about, phrase } of rows.all()) topics.set(about, [...(topics.get(about) ?? []), phrase])
  return topics
}
