import { existsSync } from 'node:fs'
import { type Static, Type } from 'typebox'
import { Value } from 'typebox/value'
import { OBJECT_KINDS } from '../../server/tours/target.ts'
import { foldText } from './fold.ts'
import { type OutreachFile, outreachFile, readRows } from './outreach-file.ts'
import type { ConstellationRow } from './rows.ts'
import type { Topics } from './topics.ts'

const TopicRow = Type.Object(
  {
    about: Type.String({ pattern: '^([a-z][a-z -]+|[A-Z][A-Za-z]{2})$' }),
    phrases: Type.String({ pattern: '^[^\\s;|]+( [^\\s;|]+)*(; [^\\s;|]+( [^\\s;|]+)*)*$' }),
  },
  { additionalProperties: false },
)

/** What a language calls a kind of thing or a constellation, one of it and many, parted by semicolons. */
export type TopicRow = Static<typeof TopicRow>

/** What stands in a question between the words that tell something. */
const SMALL = 'small words'

/** The words by which people of a language (its code, `de`) look for things; [] for a language without any. */
export const readTopics = (language: string): readonly TopicRow[] => {
  const name = `topics.${language}.csv`
  return existsSync(new URL(`./outreach/${name}`, import.meta.url)) ? topicsOf(outreachFile(name)) : []
}

/** The rows of one file in its order; throws an Error that names file and line for the first that does not hold. */
export function topicsOf(file: OutreachFile): readonly TopicRow[] {
  const seen = new Set<string>()
  return readRows(file, (cells) => {
    if (!Value.Check(TopicRow, cells)) {
      const [error] = Value.Errors(TopicRow, cells)
      throw new Error(`${error?.instancePath.split('/')[1] ?? 'row'} ${error?.message}`)
    }
    if (seen.has(cells.about)) throw new Error(`"${cells.about}" is there already`)
    seen.add(cells.about)
    return cells
  })
}

/** The words of all languages as search reads them: the small ones, and the phrases for kinds and constellations without those. */
export function searchWords(
  rows: readonly TopicRow[],
  constellations: Iterable<ConstellationRow>,
): { readonly topics: Topics; readonly small: ReadonlySet<string> } {
  const small = new Set(rows.filter(({ about }) => about === SMALL).flatMap(phrasesOf))
  const told = (phrase: string): string => {
    const telling = phrase.split(' ').filter((word) => !small.has(word))
    return telling.length > 0 ? telling.join(' ') : phrase
  }
  const topics = new Map<string, readonly string[]>(OBJECT_KINDS.map((kind) => [kind, []]))
  for (const { code, name, genitive } of constellations) topics.set(code, [name, genitive, code].map(foldText))
  for (const row of rows) {
    if (row.about === SMALL) continue
    const before = topics.get(row.about)
    if (before === undefined) throw new Error(`"${row.about}" is no kind and no constellation`)
    topics.set(row.about, [...before, ...phrasesOf(row).map(told)])
  }
  return { topics, small }
}

const phrasesOf = ({ phrases }: TopicRow): readonly string[] => phrases.split('; ').map(foldText)
