import { readFileSync } from 'node:fs'
import { parse } from 'csv-parse/sync'

/** A CSV file that lies beside this one, as rows of text by position, the heading line left out. */
export function csvRows(fileName: string): readonly (readonly string[])[] {
  const rows: string[][] = parse(catalogueText(fileName), { relax_column_count: false })
  return rows.slice(1)
}

/** The whole text of a file of the catalogue's folder. */
export const catalogueText = (fileName: string): string => readFileSync(new URL(fileName, import.meta.url), 'utf8')
