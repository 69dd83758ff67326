import type { MoonFeature } from '../../server/sight/moon-features.ts'
import type { ShowObject } from '../../server/tours/target.ts'
import { writtenOut } from './designations.ts'
import type { Entry } from './entries.ts'
import { barred, foldText } from './fold.ts'
import { type Topics, topicText } from './topics.ts'

/** An entry as search reads it: folded, and in the last two a bar between any two phrases. Topics are kind, constellation and, of a moon, its planet. */
export interface EntryText {
  readonly name: string
  readonly other: string
  readonly topics: string
}

/** The words of a text that a mistyped one may stand for. */
export const wordsOf = ({ name, other, topics }: EntryText): readonly string[] =>
  `${name} ${other} ${topics}`.match(/\p{L}{3,}/gu) ?? []

/** Another name of a thing, or a part of it, as it is said and as search reads it. */
interface OtherName {
  readonly said: string
  readonly folded: string
}

/** The folded name, then every other way to write the entry, folded. */
export const foldedNames = ({ name, designations }: Pick<Entry, 'name' | 'designations'>): readonly string[] => [
  foldText(name),
  ...designations.flatMap(foldings),
]

const foldings = (designation: string): readonly string[] =>
  [foldText(designation), writtenOut(designation) ?? []].flat()

/** The text of an entry with these folded names; a star that is not on the outreach list has no kind in words. */
export function entryText(
  entry: Pick<Entry, 'kind' | 'constellation' | 'show'>,
  [name = '', ...others]: readonly string[],
  topics: Topics,
): EntryText {
  if (entry.show === null) {
    const [constellation = ''] = topics.get(entry.constellation ?? '') ?? []
    return { name, other: barred([...others, constellation]), topics: '' }
  }
  const parts = entry.show.features.flatMap(featureFoldings)
  return { name, other: barred([...others, ...parts]), topics: topicText(topics, { ...entry, ...entry.show }) }
}

/** What a thing goes by beside its name: designations, then what there is to look for on it. */
export const otherNames = ({ designations, features }: ShowObject): readonly OtherName[] => [
  ...designations.map((said) => ({ said, folded: barred(foldings(said)) })),
  ...features.map((feature) => ({ said: feature.name, folded: barred(featureFoldings(feature)) })),
]

/** A feature by both of its names, each with the word for many of its kind, which has the one in its beginning. */
const featureFoldings = ({ name, official, kind }: MoonFeature): readonly string[] =>
  [name, official].map((each) => foldText(`${each} ${kind.replace(/^.*-/, '').replace(/s?$/, 's')}`))
