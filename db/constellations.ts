import type { Database } from 'better-sqlite3'

export type ConstellationStore = ReturnType<typeof constellationStore>

/** One unbroken line of a constellation's figure: the Hipparcos numbers of its stars in order. */
interface FigureLine {
  readonly constellation: string
  readonly hips: readonly number[]
}

/** The figures of the constellations, in a database that has the catalogue attached. */
export function constellationStore(db: Database) {
  const lines = db.prepare<[], { readonly constellation: string; readonly hips: string }>(
    'SELECT constellation, hips FROM catalogue.constellation_line ORDER BY id',
  )
  return {
    /** Every line of every figure, those of one constellation together. */
    lines: (): readonly FigureLine[] =>
      lines.all().map(({ constellation, hips }) => ({ constellation, hips: hips.split(' ').map(Number) })),
  }
}
