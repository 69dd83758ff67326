import { cellAt, type Grid, type Plan, shownAt } from './grid.ts'

type Random = () => number
type Change = (grid: Grid, plan: Plan, random: Random) => boolean

const CHANGES: readonly (readonly [share: number, change: Change])[] = [
  [0.3, insert],
  [0.15, replace],
  [0.1, bringOver],
  [0.25, moveBoundary],
  [0.08, swapAlong],
  [0.08, swapAcross],
  [0.04, remove],
]

/** Changes a plan in place by one random step; false when the step came to nothing. Only cells on offer are ever filled. */
export function change(grid: Grid, plan: Plan, random: Random): boolean {
  let share = random()
  for (const [part, step] of CHANGES) {
    if (share < part) return step(grid, plan, random)
    share -= part
  }
  return remove(grid, plan, random)
}

const below = (random: Random, count: number): number => Math.floor(random() * count)

const isOffered = (grid: Grid, station: number, candidate: number, slot: number): boolean =>
  candidate < 0 || (grid.worth[cellAt(grid, station, candidate, slot)] ?? 0) > 0

/** Shows a candidate from `from` for `length` quarters, as far as it is on offer; true when anything changed. */
function paint(grid: Grid, plan: Plan, station: number, candidate: number, from: number, length: number): boolean {
  let isChanged = false
  for (let t = from; t < Math.min(grid.slots, from + length); t++) {
    if (!isOffered(grid, station, candidate, t)) break
    const at = station * grid.slots + t
    if (plan[at] !== candidate) isChanged = true
    plan[at] = candidate
  }
  return isChanged
}

/** A thing on offer in that quarter, the worthy ones far more often. */
function offer(grid: Grid, station: number, slot: number, random: Random): number {
  const ranked = grid.ranked[station * grid.slots + slot]
  return ranked?.[Math.floor(random() ** 2 * ranked.length)] ?? -1
}

function insert(grid: Grid, plan: Plan, random: Random): boolean {
  const station = below(random, grid.stations.length)
  const from = below(random, grid.slots)
  return paint(grid, plan, station, offer(grid, station, from, random), from, 1 + below(random, grid.slots - from))
}

/** First quarter of the run that a quarter belongs to, and the first after it. */
function runAt(grid: Grid, plan: Plan, station: number, slot: number): readonly [number, number] {
  const candidate = shownAt(grid, plan, station, slot)
  let [from, to] = [slot, slot + 1]
  while (from > 0 && shownAt(grid, plan, station, from - 1) === candidate) from--
  while (to < grid.slots && shownAt(grid, plan, station, to) === candidate) to++
  return [from, to]
}

function replace(grid: Grid, plan: Plan, random: Random): boolean {
  const station = below(random, grid.stations.length)
  const [from, to] = runAt(grid, plan, station, below(random, grid.slots))
  return paint(grid, plan, station, offer(grid, station, from, random), from, to - from)
}

function moveBoundary(grid: Grid, plan: Plan, random: Random): boolean {
  const station = below(random, grid.stations.length)
  const [from, to] = runAt(grid, plan, station, below(random, grid.slots))
  const candidate = shownAt(grid, plan, station, from)
  const by = 1 + below(random, 3)
  if (random() < 0.5) return to < grid.slots && paint(grid, plan, station, candidate, to, by)
  return from > 0 && paint(grid, plan, station, candidate, Math.max(0, from - by), Math.min(by, from))
}

/** Two neighbouring runs of one station change their order and keep their lengths. */
function swapAlong(grid: Grid, plan: Plan, random: Random): boolean {
  const station = below(random, grid.stations.length)
  const [from, middle] = runAt(grid, plan, station, below(random, grid.slots))
  if (middle >= grid.slots) return false
  const [, to] = runAt(grid, plan, station, middle)
  const first = shownAt(grid, plan, station, from)
  const second = shownAt(grid, plan, station, middle)
  paint(grid, plan, station, second, from, to - middle)
  return paint(grid, plan, station, first, from + to - middle, middle - from)
}

/** Two stations exchange what they show for a run, or for the whole evening, where the other has it on offer. */
function swapAcross(grid: Grid, plan: Plan, random: Random): boolean {
  const [a, b] = [below(random, grid.stations.length), below(random, grid.stations.length)]
  if (a === b) return false
  const [from, to] = random() < 0.5 ? [0, grid.slots] : runAt(grid, plan, a, below(random, grid.slots))
  for (let t = from; t < to; t++) {
    const [atA, atB] = [shownAt(grid, plan, a, t), shownAt(grid, plan, b, t)]
    if (!isOffered(grid, a, atB, t) || !isOffered(grid, b, atA, t)) continue
    plan[a * grid.slots + t] = atB
    plan[b * grid.slots + t] = atA
  }
  return true
}

/** A thing that another station shows comes over to this one for a while, and the other shows something else instead. */
function bringOver(grid: Grid, plan: Plan, random: Random): boolean {
  const [from, to] = [below(random, grid.stations.length), below(random, grid.stations.length)]
  if (from === to) return false
  const [start, end] = runAt(grid, plan, from, below(random, grid.slots))
  const candidate = shownAt(grid, plan, from, start)
  const slot = below(random, grid.slots)
  const isThere = paint(grid, plan, to, candidate, slot, 1 + below(random, grid.slots - slot))
  return paint(grid, plan, from, offer(grid, from, start, random), start, end - start) && isThere
}

/** A run gives its time to the run before it or after it, or to nothing. */
function remove(grid: Grid, plan: Plan, random: Random): boolean {
  const station = below(random, grid.stations.length)
  const [from, to] = runAt(grid, plan, station, below(random, grid.slots))
  const before = from > 0 ? shownAt(grid, plan, station, from - 1) : -1
  const after = to < grid.slots ? shownAt(grid, plan, station, to) : -1
  return paint(grid, plan, station, random() < 0.5 ? before : after, from, to - from)
}
