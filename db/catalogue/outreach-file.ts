import { readFileSync } from 'node:fs'
import { parse } from 'csv-parse/sync'

/** One CSV of the outreach folder: its name for messages, and its text. */
export interface OutreachFile {
  readonly name: string
  readonly text: string
}

/** A file of the outreach folder. */
export const outreachFile = (name: string): OutreachFile => ({
  name,
  text: readFileSync(new URL(`./outreach/${name}`, import.meta.url), 'utf8'),
})

type Cells = Readonly<Record<string, string>>

/** Every row of a file, its cells by column, as `read` makes it; what it throws is thrown again with file and line before it. */
export function readRows<T>({ name, text }: OutreachFile, read: (cells: Cells, where: string) => T): readonly T[] {
  const [header = [], ...rows]: string[][] = inPlace(name, () => parse(text))
  return rows.map((cells, index) => {
    const where = `${name} line ${index + 2}`
    const named = Object.fromEntries(header.map((column, i) => [column, cells[i] ?? '']))
    return inPlace(where, () => read(named, where))
  })
}

function inPlace<T>(where: string, read: () => T): T {
  try {
    return read()
  } catch (error) {
    throw new Error(`${where}: ${error instanceof Error ? error.message : String(error)}`)
  }
}
