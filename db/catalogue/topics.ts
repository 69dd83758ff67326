import type { ObjectKind } from '../../server/tours/target.ts'
import { foldText } from './fold.ts'
import type { ConstellationRow } from './rows.ts'

/** What people call a kind, one of it; a word may stand for several kinds. */
const KIND_WORDS: Readonly<Record<ObjectKind, readonly string[]>> = {
  moon: ['moon'],
  planet: ['planet'],
  star: ['star'],
  'red-star': ['red star', 'carbon star', 'star'],
  double: ['double star', 'double', 'binary star', 'binary', 'star'],
  'open-cluster': ['open star cluster', 'open cluster', 'star cluster', 'cluster'],
  globular: ['globular star cluster', 'globular cluster', 'globular', 'star cluster', 'cluster'],
  galaxy: ['galaxy'],
  planetary: ['planetary nebula', 'planetary', 'nebula'],
  nebula: ['nebula'],
  remnant: ['supernova remnant', 'remnant', 'nebula'],
  asterism: ['star pattern', 'asterism', 'pattern'],
  comet: ['comet'],
  'planet-moon': ['moon'],
  'meteor-shower': ['shooting star', 'falling star', 'meteor shower', 'meteor'],
  'bare-eye': ['bare eye', 'naked eye'],
}

const manyOf = (one: string): readonly string[] =>
  one.endsWith('y') ? [one.replace(/y$/, 'ies')] : one.endsWith('a') ? [`${one}e`, `${one}s`] : [`${one}s`]

const kindPhrases = (kind: ObjectKind): readonly string[] => KIND_WORDS[kind].flatMap((one) => [one, ...manyOf(one)])

const constellationPhrases = ({ name, genitive, code }: ConstellationRow): readonly string[] =>
  [name, genitive, code].map(foldText)

/** What a thing is in plain words and where it stands: kinds, one and many, and the constellation's name, genitive and code. */
export const topicsOf = (kind: ObjectKind, constellation: ConstellationRow | undefined): readonly string[] => [
  ...kindPhrases(kind),
  ...(constellation === undefined ? [] : constellationPhrases(constellation)),
]

/** Every phrase that names a kind or a constellation. */
export const allTopics = (constellations: readonly ConstellationRow[]): ReadonlySet<string> =>
  new Set([
    ...(Object.keys(KIND_WORDS) as ObjectKind[]).flatMap(kindPhrases),
    ...constellations.flatMap(constellationPhrases),
  ])
