/** A table whose first cell of a row names it; the foot sums up. */
export interface Table {
  readonly caption: string
  readonly head: readonly string[]
  readonly rows: readonly TableRow[]
  readonly foot: TableRow | null
}

export interface TableRow {
  readonly name: string
  readonly cells: readonly string[]
}
