import { csvRows } from '../csv.ts'
import { foldAlias } from '../fold.ts'
import { csvOf, gazetteerText } from './package.ts'

const smallestTown = 5000
const smallestWithOtherNames = 100_000
const noHeight = '-9999'
const heightBeyondReach = 9000

/** Positions of the columns of GeoNames' table of towns, as its read-me lists them. */
const COLUMN = {
  id: 0,
  name: 1,
  ascii: 2,
  others: 3,
  latitude: 4,
  longitude: 5,
  country: 8,
  region: 10,
  people: 14,
  elevation: 15,
  model: 16,
  zone: 17,
} as const

/** Other spellings in Latin letters that search would not find by the name itself; only for larger towns, to keep the file small. */
function otherNames(name: string, ascii: string, others: string, people: number): string {
  const candidates = [ascii, ...(people >= smallestWithOtherNames ? others.split(',').sort() : [])]
  const known = new Set([foldAlias(name)])
  return candidates
    .filter((other) => /^\p{Lu}[\p{Script=Latin}\p{M} .'’-]{3,39}$/u.test(other) && /\p{Ll}/u.test(other))
    .filter((other) => {
      const folded = foldAlias(other)
      return !known.has(folded) && known.add(folded)
    })
    .join('|')
}

/** Height in metres: the surveyed one, else the terrain model's; '' where neither is known. */
const height = (elevation: string, model: string): string => {
  const metres = elevation === '' || Math.abs(Number(elevation)) > heightBeyondReach ? model : elevation
  return metres === noHeight ? '' : metres
}

/** `places.csv`: every town of 5,000 people and more, by country, region and name. */
export function placesCsv(): string {
  const regions = new Map(csvRows('regions.csv').map(([country, code, name]) => [`${country}.${code}`, name ?? '']))
  const towns = gazetteerText()
    .split('\n')
    .map((line) => line.split('\t'))
    .filter((field) => Number(field[COLUMN.people]) >= smallestTown)
    .map((field) => townRow(field, regions))
    .sort((a, b) => (a.order < b.order ? -1 : 1))
  return csvOf(
    [
      'name',
      'other_names',
      'country',
      'region',
      'region_code',
      'latitude_deg',
      'longitude_deg',
      'height_m',
      'zone',
      'people',
    ],
    towns.map(({ columns }) => columns),
  )
}

function townRow(field: readonly string[], regions: ReadonlyMap<string, string>) {
  const at = (column: keyof typeof COLUMN): string => field[COLUMN[column]] ?? ''
  const people = Number(at('people'))
  const others = otherNames(at('name'), at('ascii'), at('others'), people)
  const region = regions.get(`${at('country')}.${at('region')}`) ?? ''
  const place = [at('latitude'), at('longitude'), height(at('elevation'), at('model')), at('zone')]
  return {
    order: [at('country'), region, at('name'), at('id').padStart(9, '0')].join('\t'),
    columns: [at('name'), others, at('country'), region, region === '' ? '' : at('region'), ...place, people],
  }
}
