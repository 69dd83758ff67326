import type { Shower, ShowObject } from '../../tours/target.ts'
import type { Words } from '../../words/words.ts'
import { sourceText } from './say.ts'
import { decText, raText } from './sky-place.ts'

/** One value of a row of the list, with its unit, and where it comes from as it is written there. */
export interface ValueRow {
  readonly name: string
  readonly value: string
  readonly source: string
}

/** Every value of a thing that is known, except how much it delights, which is told by its reason alone. */
export function valueRows(words: Words, object: ShowObject): readonly ValueRow[] {
  return [
    ...placeRows(words, object),
    ...lightRows(words, object),
    ...sizeRows(words, object),
    ...farRows(words, object),
  ].flatMap(([column, value]) => {
    if (value === null) return []
    const unsaid = words.say(isMotion(column) ? 'value.motion-source' : 'value.no-source')
    const source = object.sources[column]
    return [
      { name: words.say(`value.${column}`), value, source: source === undefined ? unsaid : sourceText(words, source) },
    ]
  })
}

type Pair = readonly [column: string, value: string | null]

const isMotion = (column: string): boolean => ['pmRaMasYr', 'pmDecMasYr', 'parallaxMas'].includes(column)

/** A number with its unit, or null where it is unknown. */
const inUnit = (words: Words, value: number | null, unit: string, digits: number): string | null =>
  value === null ? null : words.say(`value.unit-${unit}`, { value: plain(words, value, digits) })

/** A number with up to so many decimals, as many as it has. */
const plain = (words: Words, value: number, digits: number): string => {
  const written = String(Number(value.toFixed(digits)))
  return words.number(value, written.split('.')[1]?.length ?? 0)
}

const given = (value: number): number | null => (value === 0 ? null : value)

function placeRows(words: Words, object: ShowObject): Pair[] {
  const { raDeg, decDeg } = object
  return [
    ['raDeg', raDeg === null ? null : raText(words, raDeg)],
    ['decDeg', decDeg === null ? null : decText(words, decDeg)],
    ['pmRaMasYr', inUnit(words, given(object.pmRaMasYr), 'mas-year', 1)],
    ['pmDecMasYr', inUnit(words, given(object.pmDecMasYr), 'mas-year', 1)],
    ['parallaxMas', inUnit(words, given(object.parallaxMas), 'mas', 2)],
  ]
}

function lightRows(words: Words, object: ShowObject): Pair[] {
  const { magnitude, magnitudeBand, magnitudeRange, componentMagnitudes, starMagnitudes, colours } = object
  const band = magnitudeBand === null ? '' : words.say(`value.band-${magnitudeBand.replace(' ', '-')}`)
  const both = (pair: readonly [number, number] | null, code: string): string | null =>
    pair && words.say(code, { one: plain(words, pair[0], 2), other: plain(words, pair[1], 2) })
  return [
    [
      'magnitude',
      magnitude === null ? null : words.say('value.magnitude-in', { value: plain(words, magnitude, 2), band }),
    ],
    ['magnitudeRange', both(magnitudeRange, 'value.from-to')],
    ['componentMagnitudes', both(componentMagnitudes, 'value.and')],
    ['bv', object.bv === null ? null : plain(words, object.bv, 2)],
    ['colours', colours && words.list(colours.map(words.called))],
    ['brightestStarMag', inUnit(words, object.brightestStarMag, 'none', 2)],
    [
      'starMagnitudes',
      starMagnitudes.length === 0 ? null : starMagnitudes.map((mag) => plain(words, mag, 2)).join(', '),
    ],
    ['branchMag', inUnit(words, object.branchMag, 'none', 2)],
    ['coreMagnitude', inUnit(words, object.coreMagnitude, 'none', 2)],
  ]
}

function sizeRows(words: Words, object: ShowObject): Pair[] {
  const { hips, features, starCount, condensation } = object
  return [
    ['majorArcmin', inUnit(words, object.majorArcmin, 'arcmin', 2)],
    ['minorArcmin', inUnit(words, object.minorArcmin, 'arcmin', 2)],
    ['halfLightArcmin', inUnit(words, object.halfLightArcmin, 'arcmin', 2)],
    ['coreArcmin', inUnit(words, object.coreArcmin, 'arcmin', 2)],
    ['angleDeg', inUnit(words, object.angleDeg, 'degrees', 0)],
    ['separationArcsec', inUnit(words, object.separationArcsec, 'arcsec', 1)],
    ['pairAngleDeg', inUnit(words, object.pairAngleDeg, 'degrees', 0)],
    ['pairYear', object.pairYear === null ? null : String(object.pairYear)],
    ['condensation', condensation === null ? null : String(condensation)],
    ['starCount', starCount === null ? null : words.number(starCount)],
    ['hips', hips.length === 0 ? null : hips.join(', ')],
    ['fieldDeg', inUnit(words, object.fieldDeg, 'degrees', 1)],
    ['features', features.length === 0 ? null : words.say('value.features-count', { count: features.length })],
  ]
}

function farRows(words: Words, object: ShowObject): Pair[] {
  return [
    ...(object.shower === null ? [] : showerRows(words, object.shower)),
    ['distanceLy', inUnit(words, object.distanceLy, 'ly', 1)],
    ['distancePercent', inUnit(words, object.distancePercent, 'percent', 0)],
    ['ageMyr', inUnit(words, object.ageMyr, 'myr', 1)],
    ['atOnce', object.sources.atOnce === undefined ? null : String(object.atOnce)],
  ]
}

const showerRows = (words: Words, { peakSunDeg, fromSunDeg, toSunDeg, zhr, speedKmS }: Shower): Pair[] => [
  ['peakSunDeg', inUnit(words, peakSunDeg, 'degrees', 1)],
  ['fromSunDeg', inUnit(words, fromSunDeg, 'degrees', 1)],
  ['toSunDeg', inUnit(words, toSunDeg, 'degrees', 1)],
  ['zhr', inUnit(words, zhr, 'an-hour', 0)],
  ['speedKmS', inUnit(words, speedKmS, 'km-s', 0)],
]
