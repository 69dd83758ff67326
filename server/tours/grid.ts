import type { Aim, ObjectKind } from './target.ts'
import type { Telescope } from './telescope.ts'
import type { Setup } from './tour.ts'

/** A telescope of the row as the search sees it. */
export interface GridStation {
  readonly id: string
  readonly telescope: Telescope
  readonly isForChair: boolean
  /** Marked so by the host or, where the host marked none, low enough for a child. */
  readonly isForChildren: boolean
  /** Its place among all stations of the row, for what stands beside it. */
  readonly place: number
  /** Numbers of the stations with a smaller aperture; 0 for the smallest of the row, 1 for one three times as large. */
  readonly smaller: readonly number[]
  readonly bigness: number
  /** True where this mount is pushed by hand and another of the row is driven. */
  readonly isDriftBeside: boolean
}

/** A view that at least one station can show in at least one quarter hour. */
export interface GridCandidate {
  readonly targetKey: string
  readonly aim: Aim
  readonly kind: ObjectKind
  readonly appeal: number
  readonly atOnce: number
  /** Row of the target in the evening's sky; both aims of a target share it. */
  readonly targetIndex: number
  /** Its number among the candidates of the table of chances. */
  readonly column: number
}

/**
 * The night as quarter hours: everything the search asks, reckoned once. A cell stands at (station * candidates.length +
 * candidate) * slots + slot; worth 0 says that it is not on offer there for the whole quarter.
 */
export interface Grid {
  readonly borders: readonly Date[]
  readonly slots: number
  readonly stations: readonly GridStation[]
  readonly candidates: readonly GridCandidate[]
  readonly worth: Float64Array
  /** Least chance in the quarter. */
  readonly chance: Float64Array
  /** Mean chance x view x appeal, before what the place takes away. */
  readonly quality: Float64Array
  readonly meanChance: Float64Array
  readonly meanView: Float64Array
  /** Looks that the line allows in the quarter. */
  readonly capacity: Float64Array
  /** Tube and eyepiece at station * candidates.length + candidate. */
  readonly setups: readonly (Setup | null)[]
  /** The same for the other tube of a mount with two, where it is worth a second look. */
  readonly besides: readonly (Setup | null)[]
  /** Looks that a move costs: (station * candidates.length + from) * candidates.length + to. */
  readonly moving: Float64Array
  /** By slot: people on the field, and what a look of the opening still weighs at the start of the slot. */
  readonly people: Float64Array
  readonly fade: Float64Array
  /** By candidate: number of its target, 0 up to `targets`, the same for both aims; number of its kind. */
  readonly targetOf: Int16Array
  readonly targets: number
  readonly kindOf: Uint8Array
  /** By slot: true where a class has the row, so that nothing may begin. */
  readonly isStill: readonly boolean[]
  /** By slot: true when some station can show the Moon. */
  readonly isMoonUp: readonly boolean[]
  /** What is on offer at station * slots + slot, the worthiest first. */
  readonly ranked: readonly Int16Array[]
  /** 1 at candidate * slots + slot for the three best targets of its half hour over all stations. */
  readonly isBest: Uint8Array
  /** Numbers of the targets that the host asked for: each somewhere for half an hour. */
  readonly asked: readonly number[]
  /** What the programme that the row goes by shows, where another thing would be a change on somebody's paper; -1 where it would not. */
  readonly kept: Plan
  /** The quarter in which neighbours may begin together: the first, or the one in which a night under way is planned anew. */
  readonly opening: number
}

/** What each station shows in each quarter: candidate numbers at station * slots + slot, -1 for nothing. */
export type Plan = Int16Array

/** Where a cell stands in the grid's tables. */
export const cellAt = (grid: Grid, station: number, candidate: number, slot: number): number =>
  (station * grid.candidates.length + candidate) * grid.slots + slot

/** The candidate that a station shows in a quarter, -1 for nothing. */
export const shownAt = (grid: Grid, plan: Plan, station: number, slot: number): number =>
  plan[station * grid.slots + slot] ?? -1
