import { alikeCost, type ShownWhere } from './alike.ts'
import { cellAt, type Grid, type Plan, shownAt } from './grid.ts'
import { RULES } from './rules.ts'

/** Room for what is counted by target, so that the search need not ask for memory at every step. */
export interface Room {
  readonly stock: Float64Array
  readonly where: ShownWhere
}

export const roomFor = (grid: Grid): Room => ({
  stock: new Float64Array(grid.targets),
  where: new Int32Array(grid.targets),
})

/** Value of a plan in looks of full worth, less the weight of every breach of a rule. */
export const scoreOf = (grid: Grid, plan: Plan, room: Room): number =>
  valueOfPlan(grid, plan, room) - breachWeight(grid, plan)

/** Worth x looks that the line and the stock of new eyes allow, less the cost of moving, of showing the same again and of changing what people hold on paper. */
export function valueOfPlan(grid: Grid, plan: Plan, room: Room): number {
  let value = 0
  eachLook(grid, plan, room, (cell, looks) => {
    value += (grid.worth[cell] ?? 0) * looks
  })
  return value - movingCost(grid, plan) - alikeCost(grid, plan, room.where) - changingCost(grid, plan)
}

/**
 * Goes through the stations quarter by quarter and says how many looks each cell allows: at most the line's capacity, and
 * for each target at most the people on the field less the looks that it has given, these fading with exp(-minutes / stay).
 */
export function eachLook(grid: Grid, plan: Plan, { stock }: Room, use: (cell: number, looks: number) => void): void {
  stock.fill(0)
  for (let t = 0; t < grid.slots; t++) {
    const [people, fade] = [grid.people[t] ?? 0, grid.fade[t] ?? 1]
    for (let s = 0; s < grid.stations.length; s++) {
      const c = shownAt(grid, plan, s, t)
      if (c < 0) continue
      const cell = cellAt(grid, s, c, t)
      const target = grid.targetOf[c] ?? 0
      const given = stock[target] ?? 0
      const looks = Math.min(grid.capacity[cell] ?? 0, Math.max(0, people - given * fade))
      // Kept as if given at the opening, so that one factor fades the looks of all times.
      stock[target] = given + looks / fade
      use(cell, looks)
    }
  }
}

/** What a move is felt to cost beyond its minutes, in looks of full worth: more where few telescopes stand, since more of the field waits (our judgement). */
export const botherLooks = ({ stations }: Pick<Grid, 'stations'>): number => 4 + 4 / Math.max(1, stations.length)

/** What a stop of a single quarter costs, in looks: hardly found, it is over. */
export const SHORT_STOP_LOOKS = 2

/** Cost of moving: the looks lost, each of the worth of what is moved to, the bother of every move, and stops too short to be worth it. */
export function movingCost(grid: Grid, plan: Plan): number {
  let cost = 0
  const count = grid.candidates.length
  const bother = botherLooks(grid)
  for (let s = 0; s < grid.stations.length; s++) {
    let last = -1
    for (let t = 0; t < grid.slots; t++) {
      const c = shownAt(grid, plan, s, t)
      if (c < 0) continue
      const lost = last < 0 || last === c ? -1 : (grid.moving[(s * count + last) * count + c] ?? 0)
      if (lost >= 0) cost += bother + lost * (grid.worth[cellAt(grid, s, c, t)] ?? 0)
      if (c !== last && !isShownNext(grid, plan, s, t, c)) cost += SHORT_STOP_LOOKS
      last = c
    }
  }
  return cost
}

/** What it is felt to cost, in looks, to show anything else in a quarter than what people hold on paper (our judgement). */
const CHANGED_LOOKS = 1
/** Nothing in its place would be no plan: what was shown was shown. */
const DROPPED_LOOKS = 2000

/** What it costs to show this candidate, -1 for nothing, in place of what is on paper there, -1 for nothing. */
export function changeCost(before: number, candidate: number): number {
  if (before < 0 || before === candidate) return 0
  return candidate < 0 ? DROPPED_LOOKS : CHANGED_LOOKS
}

function changingCost({ kept }: Grid, plan: Plan): number {
  let cost = 0
  for (let at = 0; at < kept.length; at++) cost += changeCost(kept[at] ?? -1, plan[at] ?? -1)
  return cost
}

const isShownNext = (grid: Grid, plan: Plan, station: number, slot: number, candidate: number): boolean =>
  slot + 1 < grid.slots && shownAt(grid, plan, station, slot + 1) === candidate

/** Weight of all breaches of the rules, 0 when every rule is kept. */
export function breachWeight(grid: Grid, plan: Plan): number {
  let weight = 0
  for (const rule of RULES) {
    for (let t = 0; t < grid.slots; t++) weight += rule.weight * rule.breachesAt(grid, plan, t)
  }
  return weight
}
