/** Where a value comes from: a published file at hand, memory, arithmetic over other values, or our own judgement. */
export type SourceClass = 'published' | 'from memory' | 'computed' | 'our judgement'

const GROUPS: Readonly<Record<string, readonly string[]>> = {
  place: ['raDeg', 'decDeg'],
  motion: ['pmRaMasYr', 'pmDecMasYr', 'parallaxMas'],
  magnitude: ['magnitude'],
  range: ['magnitudeRange'],
  bv: ['bv'],
  size: ['majorArcmin', 'minorArcmin'],
  halfLight: ['halfLightArcmin'],
  branch: ['branchMag'],
  core: ['coreMagnitude', 'coreArcmin'],
  condensation: ['condensation'],
  angle: ['angleDeg'],
  stars: ['brightestStarMag', 'starCount'],
  known: ['starMagnitudes'],
  pair: ['componentMagnitudes', 'separationArcsec', 'pairAngleDeg', 'pairYear'],
  colours: ['colours'],
  hips: ['hips'],
  field: ['fieldDeg'],
  shower: ['peakSunDeg', 'fromSunDeg', 'toSunDeg', 'zhr', 'speedKmS'],
  distance: ['distanceLy', 'distancePercent'],
  age: ['ageMyr'],
  appeal: ['appeal', 'atOnce'],
}
const SOURCED = Object.values(GROUPS).flat()
const PUBLISHED = [
  'XHIP',
  'Harris 2010',
  'RC3',
  'Bright Star Catalogue',
  'Gazetteer of Planetary Nomenclature',
  'IMO Meteor Shower Calendar',
]

/** The class of a source as it is written in a row, or null when it is none that this list knows. */
export function sourceClass(source: string): SourceClass | null {
  if (source.endsWith('from memory')) return 'from memory'
  if (source.startsWith('our judgement')) return 'our judgement'
  if (source.startsWith('computed from ')) return 'computed'
  return PUBLISHED.includes(source) ? 'published' : null
}

/**
 * The source of each column from a row's `group: source; group: source`; `filled` names the columns that hold a value.
 * Throws an Error when a value has no source, a source has no value, or a source is unknown.
 */
export function readSources(text: string, filled: readonly string[]): Readonly<Record<string, string>> {
  const sources: Record<string, string> = {}
  for (const part of text.split('; ').filter((each) => each !== '')) {
    const [group = '', source = ''] = part.split(': ')
    if (sourceClass(source) === null) throw new Error(`source "${part}" is not one this list knows`)
    const columns = (GROUPS[group] ?? []).filter((column) => filled.includes(column))
    if (columns.length === 0) throw new Error(`source "${part}" stands beside no value`)
    for (const column of columns) sources[column] = source
  }
  const bare = filled.find((column) => SOURCED.includes(column) && sources[column] === undefined)
  if (bare !== undefined) throw new Error(`${bare} has no source`)
  return sources
}
