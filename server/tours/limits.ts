import { cellAt, type Grid, type GridCandidate } from './grid.ts'
import { bestCells, moonBySlot, rankedCells } from './grid-parts.ts'
import { instantOf } from './hours.ts'
import type { Night } from './night.ts'
import type { Wish, WishMatter } from './wish.ts'

/** What the host's wishes leave of a grid. */
interface Limits {
  /** 1 at every cell that they take off the table. */
  readonly isOff: Uint8Array
  /** Numbers of the targets that were asked for. */
  readonly asked: readonly number[]
}

/** The quarters that a wish speaks of, the second not included; all of them for one without times. */
export function slotsOf({ startsAt, endsAt }: WishMatter, night: Night, borders: readonly Date[]): [number, number] {
  const slots = borders.length - 1
  if (startsAt === null || endsAt === null) return [0, slots]
  const [from, to] = [instantOf(night, startsAt), instantOf(night, endsAt)]
  const touched = Array.from({ length: slots }, (_, t) => t).filter((t) => {
    const [begins, ends] = [borders[t] ?? from, borders[t + 1] ?? to]
    return begins < to && from < ends
  })
  return touched.length === 0 ? [0, 0] : [touched[0] ?? 0, (touched.at(-1) ?? 0) + 1]
}

/** True when a view is one that a wish names. */
export const isNamed = (
  { targetKey, aim, things }: Pick<WishMatter, 'targetKey' | 'aim' | 'things'>,
  candidate: Pick<GridCandidate, 'targetKey' | 'aim' | 'kind'>,
): boolean =>
  targetKey === null
    ? things.some((kind) => kind === candidate.kind)
    : targetKey === candidate.targetKey && (aim === null || aim === candidate.aim)

/** True when a wish with times is in force at some time between two instants; one without times always is. */
export function isInForce({ startsAt, endsAt }: WishMatter, night: Night, fromAt: Date, toAt: Date): boolean {
  if (startsAt === null || endsAt === null) return true
  return instantOf(night, startsAt) < toAt && fromAt < instantOf(night, endsAt)
}

/** What wishes leave of a grid: bars first, then pins, then what a station is for; a pin or a purpose that cannot be met in a quarter leaves that quarter as it is. */
export function limitsOf(wishes: readonly Wish[], night: Night, grid: Grid): Limits {
  const isOff = new Uint8Array(grid.worth.length)
  for (const bar of wishes.filter(({ kind }) => kind === 'bar')) takeOff(grid, night, bar, isOff)
  const isTaken = new Set<number>()
  for (const kind of ['pin', 'only'] as const) {
    for (const wish of wishes.filter((it) => it.kind === kind)) leaveOnly(grid, night, wish, isOff, isTaken)
  }
  const keys = new Set(wishes.filter(({ kind }) => kind === 'ask').map(({ targetKey }) => targetKey))
  const asked = grid.candidates.flatMap(({ targetKey }, c) => (keys.has(targetKey) ? [grid.targetOf[c] ?? 0] : []))
  return { isOff, asked: [...new Set(asked)] }
}

function takeOff(grid: Grid, night: Night, bar: Wish, isOff: Uint8Array): void {
  const [from, to] = slotsOf(bar, night, grid.borders)
  for (const [s, { id }] of grid.stations.entries()) {
    if (bar.stationId !== null && bar.stationId !== id) continue
    for (const [c, candidate] of grid.candidates.entries()) {
      if (!isNamed(bar, candidate)) continue
      isOff.fill(1, cellAt(grid, s, c, from), cellAt(grid, s, c, to))
    }
  }
}

/** In every quarter of a wish that nothing heavier has taken: what it names alone, where any of it is on offer. */
function leaveOnly(grid: Grid, night: Night, wish: Wish, isOff: Uint8Array, isTaken: Set<number>): void {
  const s = grid.stations.findIndex(({ id }) => id === wish.stationId)
  const [from, to] = s < 0 ? [0, 0] : slotsOf(wish, night, grid.borders)
  for (let t = from; t < to; t++) {
    const isOpen = (c: number): boolean => (grid.worth[cellAt(grid, s, c, t)] ?? 0) > 0 && !isOff[cellAt(grid, s, c, t)]
    const isMet = grid.candidates.some((candidate, c) => isNamed(wish, candidate) && isOpen(c))
    if (!isMet || isTaken.has(s * grid.slots + t)) continue
    isTaken.add(s * grid.slots + t)
    for (const [c, candidate] of grid.candidates.entries()) {
      if (!isNamed(wish, candidate)) isOff[cellAt(grid, s, c, t)] = 1
    }
  }
}

/** The grid without what wishes take off it; what is best in a half hour is the best of what is left. */
export function limited(grid: Grid, { isOff, asked }: Limits): Grid {
  const left = (table: Float64Array): Float64Array => table.map((value, cell) => (isOff[cell] ? 0 : value))
  const [worth, quality] = [left(grid.worth), left(grid.quality)]
  const [stations, candidates] = [grid.stations.length, grid.candidates.length]
  return {
    ...grid,
    worth,
    quality,
    asked,
    ranked: rankedCells(worth, stations, candidates, grid.slots),
    isMoonUp: moonBySlot(grid.candidates, worth, stations, grid.slots),
    isBest: bestCells(grid.candidates, quality, stations, grid.borders),
  }
}
