import type { Grid, Plan } from '../../server/tours/grid.ts'

/**
 * A grid cut down to its first stations, some of its quarters in a row, and the worthiest candidates, so that an exact
 * solver can prove it; null when some quarter of some station then has nothing on offer.
 */
export function smallGrid(grid: Grid, stations: number, slots: number, candidates: number): Grid | null {
  const S = Math.min(stations, grid.stations.length)
  const T = Math.min(slots, grid.slots)
  const C = grid.candidates.length
  const best = Array.from({ length: C }, (_, c) => ({ c, worth: bestWorth(grid, c, S, T) }))
  const kept = best
    .sort((a, b) => b.worth - a.worth)
    .slice(0, candidates)
    .map(({ c }) => c)
    .sort((a, b) => a - b)
  const cells = (table: Float64Array): Float64Array =>
    Float64Array.from({ length: S * kept.length * T }, (_, i) => {
      const [s, c, t] = [Math.floor(i / T / kept.length), kept[Math.floor(i / T) % kept.length] ?? 0, i % T]
      return table[(s * C + c) * grid.slots + t] ?? 0
    })
  const worth = cells(grid.worth)
  const targets = [...new Set(kept.map((c) => grid.targetOf[c] ?? 0))]
  const ranked = Array.from({ length: S * T }, (_, cell): Plan => {
    const [s, t] = [Math.floor(cell / T), cell % T]
    const worthAt = (k: number): number => worth[(s * kept.length + k) * T + t] ?? 0
    return Int16Array.from([...kept.keys()].filter((k) => worthAt(k) > 0).sort((a, b) => worthAt(b) - worthAt(a)))
  })
  if (ranked.some(({ length }) => length === 0)) return null
  const pick = <Table>(table: readonly Table[]): Table[] =>
    Array.from({ length: S }, (_, s) => kept.map((c) => table[s * C + c])).flat() as Table[]
  return {
    ...grid,
    borders: grid.borders.slice(0, T + 1),
    slots: T,
    stations: grid.stations.slice(0, S),
    candidates: kept.flatMap((c) => grid.candidates[c] ?? []),
    worth,
    chance: cells(grid.chance),
    quality: cells(grid.quality),
    meanChance: cells(grid.meanChance),
    meanView: cells(grid.meanView),
    capacity: cells(grid.capacity),
    setups: pick(grid.setups),
    besides: pick(grid.besides),
    moving: Float64Array.from({ length: S * kept.length ** 2 }, (_, i) => {
      const [s, a, b] = [
        Math.floor(i / kept.length ** 2),
        kept[Math.floor(i / kept.length) % kept.length] ?? 0,
        kept[i % kept.length] ?? 0,
      ]
      return grid.moving[(s * C + a) * C + b] ?? 0
    }),
    people: grid.people.slice(0, T),
    fade: grid.fade.slice(0, T),
    targetOf: Int16Array.from(kept, (c) => targets.indexOf(grid.targetOf[c] ?? 0)),
    targets: targets.length,
    kindOf: Uint8Array.from(kept, (c) => grid.kindOf[c] ?? 0),
    isStill: grid.isStill.slice(0, T),
    isMoonUp: Array.from({ length: T }, (_, t) =>
      kept.some(
        (c, k) =>
          grid.candidates[c]?.kind === 'moon' &&
          Array.from({ length: S }).some((_, s) => (worth[(s * kept.length + k) * T + t] ?? 0) > 0),
      ),
    ),
    ranked,
    isBest: Uint8Array.from(
      { length: kept.length * T },
      (_, i) => grid.isBest[(kept[Math.floor(i / T)] ?? 0) * grid.slots + (i % T)] ?? 0,
    ),
  }
}

function bestWorth(grid: Grid, c: number, stations: number, slots: number): number {
  let most = 0
  for (let s = 0; s < stations; s++) {
    for (let t = 0; t < slots; t++)
      most = Math.max(most, grid.worth[(s * grid.candidates.length + c) * grid.slots + t] ?? 0)
  }
  return most
}
