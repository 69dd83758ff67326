import { cellAt, type Grid } from '../../server/tours/grid.ts'
import type { At } from './exact-model.ts'
import type { MixedInteger, Terms } from './mixed-integer.ts'

/**
 * Looks by quarter and station: shown, they are the line's or, where those are fewer, the new eyes that are left, and
 * none where none are left; no less and no more.
 */
export function exactLooks(grid: Grid, model: MixedInteger, at: At): void {
  const most = 2 * Math.max(...grid.people) + Math.max(...grid.capacity)
  for (let j = 0; j < grid.targets; j++) {
    let given: Terms = []
    for (let t = 0; t < grid.slots; t++) {
      const fade = grid.fade[t] ?? 1
      for (let s = 0; s < grid.stations.length; s++) {
        const counts = [...grid.candidates.keys()].flatMap((c) => {
          const name = grid.targetOf[c] === j ? at(s, c, t) : undefined
          if (name === undefined) return []
          const cell = cellAt(grid, s, c, t)
          const used: Terms = given.map(([factor, other]) => [factor * fade, other])
          return cellLooks(
            model,
            { name, used, most, people: grid.people[t] ?? 0 },
            grid.capacity[cell] ?? 0,
            grid.worth[cell] ?? 0,
          )
        })
        given = [...given, ...counts.map((count) => [1 / fade, count] as const)]
      }
    }
  }
}

interface Asked {
  /** 1 when the cell is shown. */
  readonly name: string
  /** Looks given before, as they weigh in this quarter. */
  readonly used: Terms
  readonly people: number
  /** More than any count here. */
  readonly most: number
}

function cellLooks(model: MixedInteger, { name, used, people, most }: Asked, capacity: number, worth: number): string {
  const count = model.variable(worth, capacity)
  const isLine = model.binary()
  const isNone = model.binary()
  model.row(
    [
      [1, isLine],
      [1, isNone],
    ],
    '<=',
    1,
  )
  model.row(
    [
      [1, count],
      [-capacity, name],
    ],
    '<=',
    0,
  )
  // The line's, all of them.
  model.row(
    [
      [1, count],
      [-capacity, name],
      [-capacity, isLine],
    ],
    '>=',
    -capacity,
  )
  // The new eyes that are left, no more and, unless it is the line's or none, no less.
  model.row([[1, count], ...used, [most, name], [-most, isNone]], '<=', people + most)
  model.row([[1, count], ...used, [-most, name], [most, isLine], [most, isNone]], '>=', people - most)
  // None are left.
  model.row([...used, [-most, isNone]], '>=', people - most)
  model.row(
    [
      [1, count],
      [most, isNone],
    ],
    '<=',
    most,
  )
  return count
}
