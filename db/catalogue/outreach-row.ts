import { type Static, Type } from 'typebox'
import { Value } from 'typebox/value'
import { BODY_KEYS } from '../../server/sky/body.ts'
import { OBJECT_KINDS, type ObjectKind, type ShowObject } from '../../server/tours/target.ts'
import { readSources } from './outreach-sources.ts'

const orNull = <T extends Type.TSchema>(schema: T) => Type.Union([Type.Null(), schema])
const number = (minimum: number, maximum: number) => Type.Number({ minimum, maximum })
const text = (maxLength: number) => Type.String({ minLength: 1, maxLength })
const pairOf = <T extends Type.TSchema>(schema: T) => orNull(Type.Tuple([schema, schema]))
const magnitude = number(-2, 16)
const arcmin = number(0.05, 720)
const turn = Type.Number({ minimum: 0, exclusiveMaximum: 360 })

const OutreachRow = Type.Object(
  {
    key: Type.String({ pattern: '^[a-z][a-z0-9]*(-[a-z0-9]+)*$', maxLength: 40 }),
    name: text(60),
    designations: Type.Array(text(60)),
    kind: Type.Enum(OBJECT_KINDS),
    body: orNull(Type.Enum(BODY_KEYS)),
    parent: orNull(Type.Enum(BODY_KEYS)),
    raDeg: orNull(turn),
    decDeg: orNull(number(-90, 90)),
    pmRaMasYr: number(-10_400, 10_400),
    pmDecMasYr: number(-10_400, 10_400),
    parallaxMas: number(0, 800),
    constellation: orNull(Type.String({ pattern: '^[A-Z][A-Za-z]{2}$' })),
    magnitude: orNull(magnitude),
    magnitudeBand: orNull(Type.Enum(['V', 'B', 'mean V'])),
    magnitudeRange: pairOf(magnitude),
    bv: orNull(number(-0.5, 6)),
    majorArcmin: orNull(arcmin),
    minorArcmin: orNull(arcmin),
    halfLightArcmin: orNull(number(0.1, 10)),
    branchMag: orNull(number(10, 21)),
    coreMagnitude: orNull(magnitude),
    coreArcmin: orNull(number(0.05, 20)),
    condensation: orNull(number(0, 9)),
    angleDeg: orNull(Type.Number({ minimum: 0, exclusiveMaximum: 180 })),
    brightestStarMag: orNull(number(-2, 18)),
    starCount: orNull(Type.Integer({ minimum: 3, maximum: 5000 })),
    starMagnitudes: Type.Array(magnitude),
    componentMagnitudes: pairOf(magnitude),
    separationArcsec: orNull(number(0.3, 700)),
    pairAngleDeg: orNull(turn),
    pairYear: orNull(Type.Integer({ minimum: 1990, maximum: 2030 })),
    colours: pairOf(text(20)),
    hips: Type.Array(Type.Integer({ minimum: 1, maximum: 120_416 })),
    fieldDeg: orNull(number(0.1, 180)),
    peakSunDeg: orNull(turn),
    fromSunDeg: orNull(turn),
    toSunDeg: orNull(turn),
    zhr: orNull(number(2, 300)),
    speedKmS: orNull(number(11, 75)),
    distanceLy: orNull(number(4, 400_000_000)),
    distancePercent: orNull(number(1, 60)),
    ageMyr: orNull(number(0.0001, 14_000)),
    note: orNull(text(160)),
    appeal: number(0, 1),
    appealReason: text(120),
    atOnce: Type.Integer({ minimum: 1, maximum: 8 }),
  },
  { additionalProperties: false },
)
type OutreachRow = Static<typeof OutreachRow>

const TEXTS = ['key', 'name', 'kind', 'body', 'constellation', 'magnitudeBand', 'parent', 'note', 'appealReason']
const TEXT_LISTS = ['designations', 'colours']
const NUMBER_LISTS = ['magnitudeRange', 'componentMagnitudes', 'hips', 'starMagnitudes']
const EMPTY: Readonly<Record<string, unknown>> = {
  designations: [],
  hips: [],
  starMagnitudes: [],
  pmRaMasYr: 0,
  pmDecMasYr: 0,
  parallaxMas: 0,
}

const PLACE = ['raDeg', 'decDeg', 'constellation'] as const
const SHINING = [...PLACE, 'magnitude', 'magnitudeBand'] as const
const SIZED = [...SHINING, 'majorArcmin', 'minorArcmin'] as const
const SHOWER = ['peakSunDeg', 'fromSunDeg', 'toSunDeg', 'zhr', 'speedKmS'] as const
const NEEDS: Readonly<Record<ObjectKind, readonly (keyof OutreachRow)[]>> = {
  moon: ['body'],
  planet: ['body'],
  star: [...SHINING, 'bv'],
  'red-star': SHINING,
  double: [...SHINING, 'componentMagnitudes', 'separationArcsec', 'pairAngleDeg', 'pairYear', 'colours'],
  'open-cluster': [...SIZED, 'brightestStarMag', 'starCount'],
  globular: [...SIZED, 'halfLightArcmin', 'branchMag'],
  galaxy: SIZED,
  planetary: SIZED,
  nebula: SIZED,
  remnant: SIZED,
  comet: [...SIZED, 'condensation'],
  asterism: [...SHINING, 'hips', 'fieldDeg'],
  'planet-moon': ['parent', 'magnitude', 'magnitudeBand'],
  'meteor-shower': [...PLACE, ...SHOWER],
  'bare-eye': [],
}

/**
 * One object from the cells of a row (empty cells are null, lists are parted by semicolons).
 * Throws an Error that says in words what is wrong with the row.
 */
export function objectOfCells({ sources, ...cells }: Readonly<Record<string, string>>): ShowObject {
  const strange = Object.keys(cells).find((column) => !(column in OutreachRow.properties))
  if (strange !== undefined) throw new Error(`${strange} is no column of this list`)
  const row = checked({ ...blank(), ...Object.fromEntries(Object.entries(cells).map(readCell)) })
  for (const column of NEEDS[row.kind]) {
    const value = row[column]
    if (value === null || (Array.isArray(value) && value.length === 0))
      throw new Error(`kind ${row.kind} needs ${column}`)
  }
  checkSense(row)
  const filled = Object.keys(cells).filter((column) => cells[column] !== '')
  return { ...withShower(row), features: [], sources: readSources(sources ?? '', filled) }
}

/** The five columns of a shower as one value, which no other kind has. */
function withShower({ peakSunDeg, fromSunDeg, toSunDeg, zhr, speedKmS, ...row }: OutreachRow) {
  if (peakSunDeg === null || fromSunDeg === null || toSunDeg === null || zhr === null || speedKmS === null)
    return { ...row, shower: null }
  return { ...row, shower: { peakSunDeg, fromSunDeg, toSunDeg, zhr, speedKmS } }
}

const blank = (): Record<string, unknown> =>
  Object.fromEntries(Object.keys(OutreachRow.properties).map((column) => [column, EMPTY[column] ?? null]))

function readCell([column, cell]: [string, string]): [string, unknown] {
  if (cell === '') return [column, EMPTY[column] ?? null]
  if (TEXT_LISTS.includes(column)) return [column, cell.split('; ')]
  if (NUMBER_LISTS.includes(column)) return [column, cell.split('; ').map(Number)]
  return [column, TEXTS.includes(column) ? cell : Number(cell)]
}

function checked(row: unknown): OutreachRow {
  if (Value.Check(OutreachRow, row)) return row
  // A union reports each of its branches: the branch for a value that is there says most.
  const [error] = Value.Errors(OutreachRow, row).filter(({ params }) => !('type' in params && params.type === 'null'))
  const reason = error?.keyword === 'boolean' ? 'has a value too many' : error?.message
  throw new Error(`${error?.instancePath.split('/')[1] ?? 'row'} ${reason}`)
}

function checkSense(row: OutreachRow): void {
  const { majorArcmin, minorArcmin, magnitudeRange, componentMagnitudes, magnitude: mean, body, key } = row
  const { coreMagnitude, coreArcmin, starMagnitudes } = row
  if (majorArcmin !== null && minorArcmin !== null && minorArcmin > majorArcmin)
    throw new Error('minorArcmin is larger than majorArcmin')
  if (magnitudeRange !== null && (mean === null || mean < magnitudeRange[0] || mean > magnitudeRange[1]))
    throw new Error('magnitude lies outside magnitudeRange, brightest first')
  if (componentMagnitudes !== null && componentMagnitudes[0] > componentMagnitudes[1])
    throw new Error('componentMagnitudes must name the brighter star first')
  if ((coreMagnitude === null) !== (coreArcmin === null)) throw new Error('a core needs coreMagnitude and coreArcmin')
  if (coreMagnitude !== null && mean !== null && coreMagnitude < mean)
    throw new Error('coreMagnitude is brighter than the whole')
  if (starMagnitudes.some((each, i) => each < (starMagnitudes[i - 1] ?? each)))
    throw new Error('starMagnitudes must name the brightest star first')
  if (row.distancePercent !== null && row.distanceLy === null) throw new Error('distancePercent needs a distanceLy')
  if (row.kind !== 'meteor-shower' && SHOWER.some((column) => row[column] !== null))
    throw new Error(`kind ${row.kind} is no shower`)
  if (body !== null && body !== key) throw new Error('key of a body must be its body')
}
