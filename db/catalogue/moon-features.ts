import { type Static, Type } from 'typebox'
import { Value } from 'typebox/value'
import { MOON_FEATURE_KINDS, type MoonFeature } from '../../server/sight/moon-features.ts'
import { type OutreachFile, outreachFile, readRows } from './outreach-file.ts'
import { sourceClass } from './outreach-sources.ts'

const FeatureRow = Type.Object(
  {
    name: Type.String({ minLength: 3, maxLength: 30 }),
    official: Type.String({ minLength: 3, maxLength: 30 }),
    kind: Type.Enum(MOON_FEATURE_KINDS),
    longitudeDeg: Type.Number({ minimum: -90, maximum: 90 }),
    latitudeDeg: Type.Number({ minimum: -90, maximum: 90 }),
    diameterKm: Type.Number({ minimum: 3, maximum: 3000 }),
    bestFromDeg: Type.Number({ minimum: 0.5, maximum: 89 }),
    bestToDeg: Type.Number({ minimum: 1, maximum: 90 }),
    see: Type.String({ minLength: 20, maxLength: 110, pattern: '^[A-Z].*\\.$' }),
  },
  { additionalProperties: false },
)
type FeatureRow = Static<typeof FeatureRow>

const TEXTS = ['name', 'official', 'kind', 'see']
/** What needs a source: the place with the width, the heights of the Sun, and the sentence. */
const SOURCED = ['place', 'best', 'see'] as const

/** What there is to look for on the Moon, in the list's order; throws an Error that names file and line for the first row that does not hold. */
export const readMoonFeatures = (): readonly MoonFeature[] => moonFeaturesOf(outreachFile('moon-features.csv'))

/** The features of one file; throws an Error that names file and line for the first row that does not hold, or that bears the name of another. */
export function moonFeaturesOf(file: OutreachFile): readonly MoonFeature[] {
  const owners = new Map<string, string>()
  return readRows(file, (cells, where) => {
    const feature = featureOf(cells)
    if (owners.has(feature.name)) throw new Error(`"${feature.name}" already stands at ${owners.get(feature.name)}`)
    owners.set(feature.name, where)
    return feature
  })
}

function featureOf({ sources = '', ...cells }: Readonly<Record<string, string>>): MoonFeature {
  const row = checked(Object.fromEntries(Object.entries(cells).map(readCell)))
  if (row.bestFromDeg >= row.bestToDeg) throw new Error('bestFromDeg must lie under bestToDeg')
  const named = new Map(sources.split('; ').map((part) => [part.split(': ')[0], part.split(': ')[1] ?? '']))
  const bare = SOURCED.find((group) => sourceClass(named.get(group) ?? '') === null)
  if (bare !== undefined) throw new Error(`${bare} has no source that this list knows`)
  return row
}

const readCell = ([column, cell]: [string, string]): [string, unknown] => [
  column,
  TEXTS.includes(column) ? cell : cell === '' ? null : Number(cell),
]

function checked(row: unknown): FeatureRow {
  if (Value.Check(FeatureRow, row)) return row
  const [error] = Value.Errors(FeatureRow, row)
  throw new Error(`${error?.instancePath.split('/')[1] ?? 'row'} ${error?.message}`)
}
