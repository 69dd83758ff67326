/** A table whose first cell of a row names it; the foot sums up. */
export interface Table {
  readonly caption: string
  readonly head: TableRow
  readonly rows: readonly TableRow[]
  readonly foot: TableRow | null
}

export interface TableRow {
  readonly name: string
  readonly cells: readonly string[]
}

/** A row of these texts, the first of which names it. */
export const rowOf = ([name = '', ...cells]: readonly string[]): TableRow => ({ name, cells })
