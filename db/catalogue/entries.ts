import type { ObjectHit, ShowObject } from '../../server/tours/target.ts'
import { starDesignations, starTitle } from './designations.ts'
import type { ConstellationRow, StarNames, StarRow } from './rows.ts'

/** One searchable thing: an outreach object (`show` set) or a star. `designations` are all its other names. */
export interface Entry extends Omit<ObjectHit, 'isOutreach'> {
  readonly designations: readonly string[]
  readonly show: ShowObject | null
}

/** The tables that entries are made of. */
export interface EntrySources {
  readonly stars: ReadonlyMap<number, StarRow>
  readonly names: ReadonlyMap<number, StarNames>
  readonly constellations: ReadonlyMap<string, ConstellationRow>
  readonly outreach: readonly ShowObject[]
}

const FAINTEST_WITHOUT_NAME = 7.6

/** The key of a star that is not on the outreach list. */
export const starKey = (hip: number): string => `hip${hip}`

/** Every searchable thing in the order search prefers: outreach objects by appeal, then stars from bright to faint. */
export function entries(sources: EntrySources): readonly Entry[] {
  const shown = [...sources.outreach]
    .sort((a, b) => b.appeal - a.appeal || (a.key < b.key ? -1 : 1))
    .map((object) => showEntry(object, sources))
  const taken = new Set(sources.outreach.flatMap(hipsOf))
  const stars = [...sources.stars.values()]
    .filter(({ hip, magnitude }) => magnitude <= FAINTEST_WITHOUT_NAME || sources.names.has(hip))
    .filter(({ hip }) => !taken.has(hip))
    .sort((a, b) => a.magnitude - b.magnitude || a.hip - b.hip)
    .map((star) => starEntry(star, sources))
  return toldApart([...shown, ...stars])
}

/** Two stars of one pair may share a letter; the first keeps the title, the others add their number. */
function toldApart(all: readonly Entry[]): readonly Entry[] {
  const seen = new Set<string>()
  return all.map((entry) => {
    if (entry.show !== null || !seen.has(entry.name)) {
      seen.add(entry.name)
      return entry
    }
    return {
      ...entry,
      name: `${entry.name} (HIP ${entry.key.slice(3)})`,
      designations: [entry.name, ...entry.designations],
    }
  })
}

function starEntry(star: StarRow, { names, constellations }: EntrySources): Entry {
  const starNames = names.get(star.hip)
  const constellation = constellations.get(starNames?.constellation || star.constellation)
  return {
    key: starKey(star.hip),
    name: starTitle(star, starNames, constellation?.genitive ?? ''),
    kind: 'star',
    constellation: star.constellation,
    magnitude: star.magnitude,
    raDeg: star.raDeg,
    decDeg: star.decDeg,
    designations: starDesignations(star, starNames, constellation),
    show: null,
  }
}

/** The Hipparcos numbers that an outreach object goes by: its key's, and those of companions among its designations. */
const hipsOf = ({ key, designations }: ShowObject): readonly number[] =>
  [key, ...designations].flatMap((name) => /^hip ?(\d+)$/i.exec(name)?.[1] ?? []).map(Number)

function showEntry(object: ShowObject, sources: EntrySources): Entry {
  const stars = hipsOf(object).flatMap((hip) => sources.stars.get(hip) ?? [])
  const twins = stars.map((star) => starEntry(star, sources))
  const { key, name, kind, constellation, magnitude, raDeg, decDeg } = object
  const others = twins.flatMap((twin) => [twin.name, ...twin.designations])
  const main = stars.find(({ hip }) => starKey(hip) === key)
  return {
    ...{ key, name, kind, constellation, magnitude, raDeg, decDeg },
    designations: [...new Set([...object.designations, ...others])],
    show: main === undefined ? object : moved(object, main),
  }
}

/** The outreach list may leave the motion of a star to the table of motions. */
function moved(object: ShowObject, { pmRaMasYr, pmDecMasYr, parallaxMas }: StarRow): ShowObject {
  const isUnsaid = object.pmRaMasYr === 0 && object.pmDecMasYr === 0 && object.parallaxMas === 0
  return isUnsaid ? { ...object, pmRaMasYr, pmDecMasYr, parallaxMas } : object
}
