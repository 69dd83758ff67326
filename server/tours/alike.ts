import { type Grid, type Plan, shownAt } from './grid.ts'
import { TELESCOPE_KINDS, type TelescopeKind } from './target.ts'

/** What the same thing, or the same kind of thing, at a further telescope of the row costs in a quarter, in looks. */
export const SAME_TARGET_LOOKS = 10
export const SAME_KIND_LOOKS = 1
/** What it costs to begin a thing that was on before, at another station or at this one, in looks: people ask for it where it was. */
export const WANDERING_LOOKS = 8
/** What every further thing of a kind costs an evening, in looks. To a newcomer all doubles look alike. */
const AGAIN_LOOKS: Readonly<Record<TelescopeKind, number>> = {
  moon: 0,
  planet: 0,
  star: 7,
  'red-star': 7,
  double: 7,
  asterism: 5,
  globular: 4,
  galaxy: 4,
  planetary: 4,
  'open-cluster': 2,
  nebula: 3,
  remnant: 3,
  comet: 3,
}
export const AGAIN_BY_KIND = Float64Array.from(TELESCOPE_KINDS, (kind) => AGAIN_LOOKS[kind])

/** By target: 1 once it has been shown. */
export type ShownWhere = Int32Array

/** Cost in looks of an evening that shows the same again: at one time along the row, of one kind, or of one thing that wanders. */
export function alikeCost(grid: Grid, plan: Plan, where: ShownWhere): number {
  return samenessCost(grid, plan) + eveningCost(grid, plan, where)
}

function samenessCost(grid: Grid, plan: Plan): number {
  let cost = 0
  for (let t = 0; t < grid.slots; t++) {
    for (let s = 1; s < grid.stations.length; s++) {
      const here = shownAt(grid, plan, s, t)
      if (here < 0) continue
      for (let other = 0; other < s; other++) {
        const there = shownAt(grid, plan, other, t)
        if (there < 0) continue
        if (grid.targetOf[there] === grid.targetOf[here]) cost += SAME_TARGET_LOOKS
        else if (grid.kindOf[there] === grid.kindOf[here]) cost += SAME_KIND_LOOKS
      }
    }
  }
  return cost
}

/** Every beginning of a thing after the first, and every thing after the first of its kind. */
function eveningCost(grid: Grid, plan: Plan, where: ShownWhere): number {
  where.fill(0)
  let [cost, kinds, last] = [0, 0, -1]
  for (let at = 0; at < plan.length; at++) {
    if (at % grid.slots === 0) last = -1
    const c = plan[at] ?? -1
    if (c < 0) continue
    const target = grid.targetOf[c] ?? 0
    if (target === last) continue
    last = target
    const kind = grid.kindOf[c] ?? 0
    if (where[target] === 1) cost += WANDERING_LOOKS
    else if (kinds & (1 << kind)) cost += AGAIN_BY_KIND[kind] ?? 0
    where[target] = 1
    kinds |= 1 << kind
  }
  return cost
}
