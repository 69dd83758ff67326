import type { EntryText } from './catalogue/entry-text.ts'
import { foldText } from './catalogue/fold.ts'

const LONGEST_QUERY = 80
const MOST_WORDS = 8

/** Words side by side: with the last one open-ended, or whole; at the start of a name; or a topic, between bars. */
export interface Term {
  readonly text: string
  readonly as: 'open' | 'whole' | 'start' | 'topic'
}

/** The words of a question as the text tables hold them; [] when it holds no letter and no digit. */
export const queryWords = (query: string): readonly string[] =>
  foldText(query.slice(0, LONGEST_QUERY))
    .split(' ')
    .filter((word) => word !== '')
    .slice(0, MOST_WORDS)

/** The words that carry a question: `double star in cygnus` without its `in`, which is one of the small words. */
export function tellingWords(words: readonly string[], small: ReadonlySet<string>): readonly string[] {
  const telling = words.filter((word) => !small.has(word))
  return telling.length > 0 ? telling : words
}

const isNumber = (word: string): boolean => /^\p{N}/u.test(word)
const open = (words: readonly string[]): Term => ({ text: words.join(' '), as: 'open' })

/** All words side by side at the start of a name. */
export const startTerms = (words: readonly string[]): readonly Term[] => [{ text: words.join(' '), as: 'start' }]

/**
 * All words in any order, each open-ended, but a number stays with the word before it (`m 13`, `ngc 70`)
 * and a number with more to come is taken whole (`61 cyg`); `hasMore` says that more comes after the last.
 */
export function wordTerms(words: readonly string[], hasMore = false): readonly Term[] {
  const terms: Term[] = []
  for (const [i, word] of words.entries()) {
    const next = words[i + 1]
    const before = words[i - 1]
    if (isNumber(word) && before !== undefined && !isNumber(before)) continue
    if (next !== undefined && isNumber(next) && !isNumber(word)) terms.push(open([word, next]))
    else terms.push(isNumber(word) && (next !== undefined || hasMore) ? { text: word, as: 'whole' } : open([word]))
  }
  return terms
}

/** All words in any order, each open-ended, with no number tied to a word. */
export const looseTerms = (words: readonly string[]): readonly Term[] => words.map((word) => open([word]))

/** As `wordTerms`, but each run of words that names a topic, the longest first, is taken as such; [] when none does. */
export function topicTerms(words: readonly string[], topics: ReadonlySet<string>): readonly Term[] {
  const at = words.findIndex((_, i) => longestTopic(words.slice(i), topics).length > 0)
  if (at < 0) return []
  const run = longestTopic(words.slice(at), topics)
  const after = words.slice(at + run.length)
  const more = topicTerms(after, topics)
  return [
    ...wordTerms(words.slice(0, at), true),
    { text: `| ${run.join(' ')} |`, as: 'topic' },
    ...(more.length > 0 ? more : wordTerms(after)),
  ]
}

/** The longest run from the first word on that is a topic; [] when there is none. */
function longestTopic(words: readonly string[], topics: ReadonlySet<string>): readonly string[] {
  const runs = words.map((_, i) => words.slice(0, words.length - i))
  return runs.find((run) => topics.has(run.join(' '))) ?? []
}

const TABLE_FORMS: Readonly<Record<Term['as'], (quoted: string) => string>> = {
  open: (quoted) => `${quoted} *`,
  whole: (quoted) => quoted,
  start: (quoted) => `name : ^ ${quoted} *`,
  topic: (quoted) => `topics : ${quoted}`,
}

/** All of these terms, as the text tables are asked for them. */
export const matchOf = (terms: readonly Term[]): string =>
  terms.map(({ text, as }) => TABLE_FORMS[as](`"${text}"`)).join(' AND ')

/** True when a text that stands in no table has all of these terms. */
export function holds({ name, other, topics }: EntryText, terms: readonly Term[]): boolean {
  const all = ` ${name} | ${other} | ${topics} `
  const has: Readonly<Record<Term['as'], (text: string) => boolean>> = {
    open: (text) => all.includes(` ${text}`),
    whole: (text) => all.includes(` ${text} `),
    start: (text) => name.startsWith(text),
    topic: (text) => topics.includes(text),
  }
  return terms.every(({ text, as }) => has[as](text))
}

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
