import type { ShowObject } from '../../server/tours/target.ts'
import { readMoonFeatures } from './moon-features.ts'
import { type OutreachFile, outreachFile, readRows } from './outreach-file.ts'
import { objectOfCells } from './outreach-row.ts'
import { type SourceClass, sourceClass } from './outreach-sources.ts'

interface Line {
  readonly where: string
  readonly object: ShowObject
}

/** The files of the list, a kind or two each; the words about their things stand beside them, `<name>.<language>.csv`. */
export const OUTREACH_NAMES = [
  'bodies',
  'open-clusters',
  'globulars',
  'galaxies',
  'planetaries',
  'nebulae',
  'doubles',
  'stars',
  'asterisms',
  'beside-telescopes',
] as const

/** Every row of the outreach list, checked, the Moon with what there is to look for on it; throws an Error that names file and line for the first row that does not hold. */
export const readOutreach = (): readonly ShowObject[] =>
  outreachOf(OUTREACH_NAMES.map((name) => outreachFile(`${name}.csv`))).map((object) =>
    object.body === 'moon' ? { ...object, features: readMoonFeatures() } : object,
  )

/** The objects of these files in their order; throws an Error that names file and line for the first row that does not hold. */
export function outreachOf(files: readonly OutreachFile[]): readonly ShowObject[] {
  const lines = files.flatMap(linesOf)
  refuseDoubleNames(lines)
  return lines.map(({ object }) => object)
}

/** How many values of the list come from which class of source. */
export function sourceCounts(objects: readonly ShowObject[]): Readonly<Record<SourceClass, number>> {
  const counts: Record<SourceClass, number> = { published: 0, 'from memory': 0, computed: 0, 'our judgement': 0 }
  for (const source of objects.flatMap(({ sources }) => Object.values(sources))) {
    const found = sourceClass(source)
    if (found !== null) counts[found] += 1
  }
  return counts
}

const linesOf = (file: OutreachFile): readonly Line[] =>
  readRows(file, (cells, where) => ({ where, object: objectOfCells(cells) }))

const plain = (name: string): string => name.toLowerCase().replaceAll(/[^a-z0-9]/g, '')

function refuseDoubleNames(lines: readonly Line[]): void {
  const owners = new Map<string, string>()
  for (const { where, object } of lines) {
    const names = [object.key, object.name, ...object.designations]
    const taken = names.find((name) => owners.has(plain(name)))
    if (taken !== undefined) throw new Error(`${where}: "${taken}" already stands at ${owners.get(plain(taken))}`)
    for (const name of names) owners.set(plain(name), where)
  }
}
