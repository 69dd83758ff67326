import { barred } from './fold.ts'

/**
 * What people call a kind of thing or a constellation, by the kind or the constellation's code: phrases of every language
 * that ships as search reads them, for a constellation its own name first.
 */
export type Topics = ReadonlyMap<string, readonly string[]>

/** What a thing is in plain words and where it stands; a moon's planet is a topic too. Each phrase stands between bars. */
export const topicText = (topics: Topics, { kind, constellation, parent }: About): string =>
  `| ${barred([kind, constellation ?? ''].flatMap((about) => topics.get(about) ?? []).concat(parent ?? ''))} |`

interface About {
  readonly kind: string
  readonly constellation: string | null
  readonly parent?: string | null
}

/** Every phrase that names a kind or a constellation. */
export const allTopics = (topics: Topics): ReadonlySet<string> => new Set([...topics.values()].flat())
