import { entries } from '../../db/catalogue/entries.ts'
import { type EntryText, entryText, foldedNames, wordsOf } from '../../db/catalogue/entry-text.ts'
import { constellationRows, starNames, starRows } from '../../db/catalogue/rows.ts'
import { otherReadings } from '../../db/catalogue/spelling.ts'
import { searchWords } from '../../db/catalogue/topic-words.ts'
import { holds, looseTerms, queryWords, type Term, tellingWords, wordTerms } from '../../db/search.ts'
import type { ShowObject } from '../../server/tours/target.ts'
import { TOPICS } from '../support/catalogue-data.ts'

interface Line {
  readonly key: string
  readonly text: EntryText
}

/**
 * The straightforward way to search: every text of every entry is looked through for the words, without tables and without
 * an order. It answers the keys of all that hold them, or, where nothing does, of what holds one of the other readings.
 */
export function plainSearch(outreach: readonly ShowObject[]): (query: string) => ReadonlySet<string> {
  const constellations = constellationRows()
  const { topics, small } = searchWords(Object.values(TOPICS).flat(), constellations.values())
  const telling = (words: readonly string[]) => tellingWords(words, small)
  const lines = entries({ stars: starRows(), names: starNames(), constellations, outreach }).map(
    (entry): Line => ({
      key: entry.key,
      text: entryText(entry, foldedNames(entry), topics),
    }),
  )
  const known = new Set(lines.flatMap(({ text }) => wordsOf(text)))
  return (query) => {
    const words = queryWords(query)
    const found = holding(lines, [telling(words)])
    return found.size > 0 ? found : holding(lines, otherReadings(words, known).map(telling))
  }
}

function holding(lines: readonly Line[], readings: readonly (readonly string[])[]): ReadonlySet<string> {
  const having = (termsOf: (words: readonly string[]) => readonly Term[]) =>
    new Set(
      lines
        .filter(({ text }) => readings.some((words) => words.length > 0 && holds(text, termsOf(words))))
        .map(({ key }) => key),
    )
  const tied = having(wordTerms)
  return tied.size > 0 ? tied : having(looseTerms)
}
