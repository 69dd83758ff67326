import { createHash } from 'node:crypto'
import { readFileSync, writeFileSync } from 'node:fs'
import { pathToFileURL } from 'node:url'
import { boundariesCsv, linesCsv } from './make/constellations.ts'
import { designationsCsv } from './make/designations.ts'
import { placesCsv } from './make/places.ts'
import { skyStars, starsCsv } from './make/stars.ts'

/** Tables that people write; the others are made from packages. */
export const HAND_TABLES = ['constellations.csv', 'motions.csv', 'names.csv', 'regions.csv'] as const

/** The made tables by file name, from the two data packages; the same text on every run. */
export function makeCatalogue(): ReadonlyMap<string, string> {
  const stars = skyStars()
  return new Map([
    ['boundaries.csv', boundariesCsv()],
    ['designations.csv', designationsCsv(stars)],
    ['lines.csv', linesCsv(stars)],
    ['places.csv', placesCsv()],
    ['stars.csv', starsCsv(stars)],
  ])
}

/** The SHA-256 of each table, one line a file, as `sha256sum -c` reads it. */
export const checksums = (tables: ReadonlyMap<string, string>): string =>
  [...tables]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([name, text]) => `${createHash('sha256').update(text).digest('hex')}  ${name}\n`)
    .join('')

function writeAll(): void {
  const made = makeCatalogue()
  for (const [name, text] of made) writeFileSync(new URL(name, import.meta.url), text)
  const hand = HAND_TABLES.map((name) => [name, readFileSync(new URL(name, import.meta.url), 'utf8')] as const)
  writeFileSync(new URL('checksums.txt', import.meta.url), checksums(new Map([...made, ...hand])))
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) writeAll()
