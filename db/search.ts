import { foldText } from './catalogue/fold.ts'

const LONGEST_QUERY = 80
const MOST_WORDS = 8

/** The words of a question as the text tables hold them; [] when it holds no letter and no digit. */
export const queryWords = (query: string): readonly string[] =>
  foldText(query.slice(0, LONGEST_QUERY))
    .split(' ')
    .filter((word) => word !== '')
    .slice(0, MOST_WORDS)

const quoted = (text: string): string => `"${text}"`
const isNumber = (word: string): boolean => /^\p{N}/u.test(word)

/** Words side by side in this order, the last one open-ended: `"m 1" *`. */
export const phrase = (words: readonly string[]): string => `${quoted(words.join(' '))} *`

/**
 * All words in any order, each open-ended, but a number stays with the word before it (`m 13`, `ngc 70`)
 * and a number with more to come is taken whole (`61 cyg`).
 */
export function allWords(words: readonly string[]): string {
  const parts: string[] = []
  for (const [i, word] of words.entries()) {
    const next = words[i + 1]
    const before = words[i - 1]
    if (isNumber(word) && before !== undefined && !isNumber(before)) continue
    if (next !== undefined && isNumber(next) && !isNumber(word)) parts.push(phrase([word, next]))
    else parts.push(isNumber(word) && next !== undefined ? quoted(word) : `${quoted(word)} *`)
  }
  return parts.join(' AND ')
}

/** All words in any order, each open-ended, with no number tied to a word. */
export const looseWords = (words: readonly string[]): string => words.map((word) => `${quoted(word)} *`).join(' AND ')

/** Runs the searches one after the other until `limit` different rows are found; each is asked only for what may still be missing. */
export function firstOf<Row extends { readonly id: number }>(
  limit: number,
  searches: readonly ((limit: number) => readonly Row[])[],
): readonly Row[] {
  const found = new Map<number, Row>()
  for (const search of searches) {
    if (found.size >= limit) break
    for (const row of search(limit)) {
      if (found.size < limit && !found.has(row.id)) found.set(row.id, row)
    }
  }
  return [...found.values()]
}
