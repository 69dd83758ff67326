/** A cell of a list: a number stands as it is, a text is kept from being read as a formula. */
export type Cell = string | number | null

/** Spreadsheets run what begins so; an apostrophe before it makes it a text again. */
const FORMULA = /^[=+\-@\t\r]/

const cellText = (cell: Cell): string => {
  if (cell === null) return ''
  if (typeof cell === 'number') return String(cell)
  const plain = FORMULA.test(cell) ? `'${cell}` : cell
  return /[",\r\n]|^'|^\s|\s$/.test(plain) ? `"${plain.replaceAll('"', '""')}"` : plain
}

/** Lines of cells as RFC 4180 has them: commas, CRLF at the end of every line, quotes doubled. */
export const csvText = (lines: readonly (readonly Cell[])[]): string =>
  lines.map((cells) => `${cells.map(cellText).join(',')}\r\n`).join('')

/** What a CSV file is called by its browser: the mark of UTF-8 is not in it, since RFC 4180 knows none. */
export const CSV_TYPE = 'text/csv; charset=utf-8; header=present'
