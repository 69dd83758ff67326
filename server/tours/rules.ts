import { cellAt, type Grid, type Plan, shownAt } from './grid.ts'

/** A rule of the programme: its code names the sentence a host reads when it has to give way. */
interface Rule {
  readonly code: string
  /** What one breach in one quarter costs the search; far above any worth, and more for what gives way later. */
  readonly weight: number
  /** Breaches in one quarter hour, 0 when the rule is kept. */
  readonly breachesAt: (grid: Grid, plan: Plan, slot: number) => number
}

/** A newcomer's chance from which on anyone sees it. */
export const ANYONE = 0.95
const MOST_MOVES_PER_HOUR = 4 / 3
const SHOWPIECE_APPEAL = 0.85
const SHOWPIECE_CHANCE = 0.8
export const LAST_SLOTS = 2

/** The rules in the order in which they give way: the first gives way first. A stop that is not well placed is never made at all. */
export const RULES: readonly Rule[] = [
  { code: 'rule.idle', weight: 40, breachesAt: idleWithOffer },
  { code: 'rule.neighbours-together', weight: 60, breachesAt: neighboursTogether },
  { code: 'rule.moves', weight: 90, breachesAt: movesTooMany },
  { code: 'rule.last-showpiece', weight: 130, breachesAt: lastWithoutShowpiece },
  { code: 'rule.best-for-all', weight: 180, breachesAt: bestOutOfReach },
  { code: 'rule.row-alike', weight: 250, breachesAt: rowAlike },
  { code: 'rule.anyone-sees', weight: 350, breachesAt: tooHardForAnyone },
  { code: 'rule.moon-always', weight: 500, breachesAt: moonMissing },
  { code: 'rule.asked', weight: 600, breachesAt: askedMissing },
  { code: 'rule.at-once', weight: 700, breachesAt: shownTooOften },
  { code: 'rule.class-still', weight: 900, breachesAt: movesInClass },
]

/** What a breach of the rule with this code costs the search, in looks; throws for a code that is no rule's. */
export function weightOf(code: string): number {
  const rule = RULES.find((found) => found.code === code)
  if (rule === undefined) throw new Error(`No rule ${code}`)
  return rule.weight
}

/** Quarters in a row at one station that a target must have which the host asked for. */
export const ASKED_SLOTS = 2

/** Targets that the host asked for and that no station shows for half an hour; they are the whole evening's, so the first quarter counts them. */
export function missingTargets(grid: Grid, plan: Plan): readonly number[] {
  const least = Math.min(ASKED_SLOTS, grid.slots)
  return grid.asked.filter((target) => {
    let inRow = 0
    for (const [at, c] of plan.entries()) {
      if (at % grid.slots === 0) inRow = 0
      inRow = c >= 0 && grid.targetOf[c] === target ? inRow + 1 : 0
      if (inRow >= least) return false
    }
    return true
  })
}

function askedMissing(grid: Grid, plan: Plan, slot: number): number {
  return slot > 0 || grid.asked.length === 0 ? 0 : missingTargets(grid, plan).length
}

/** No telescope stands idle while it has something to show. */
function idleWithOffer(grid: Grid, plan: Plan, slot: number): number {
  let breaches = 0
  for (let s = 0; s < grid.stations.length; s++) {
    if (shownAt(grid, plan, s, slot) < 0 && (grid.ranked[s * grid.slots + slot]?.length ?? 0) > 0) breaches++
  }
  return breaches
}

/** Neighbours of the row never begin something new in the same quarter, but for the opening. */
function neighboursTogether(grid: Grid, plan: Plan, slot: number): number {
  if (slot === grid.opening) return 0
  let breaches = 0
  for (let s = 1; s < grid.stations.length; s++) {
    const isBeside = (grid.stations[s]?.place ?? 0) - (grid.stations[s - 1]?.place ?? 0) === 1
    if (isBeside && begins(grid, plan, s, slot) && begins(grid, plan, s - 1, slot)) breaches++
  }
  return breaches
}

/** True when a station turns to something new in a quarter after the first. */
export function begins(grid: Grid, plan: Plan, station: number, slot: number): boolean {
  if (slot === 0) return false
  const now = shownAt(grid, plan, station, slot)
  return now >= 0 && now !== shownAt(grid, plan, station, slot - 1)
}

/** While a class goes round, nothing begins: every group sees the same. */
function movesInClass(grid: Grid, plan: Plan, slot: number): number {
  if (!grid.isStill[slot]) return 0
  return grid.stations.reduce((sum, _, s) => sum + (begins(grid, plan, s, slot) ? 1 : 0), 0)
}

/** Moves of one telescope that an evening of this length bears: four in three hours are plenty. */
export function mostMoves({ borders }: Pick<Grid, 'borders'>): number {
  const hours = ((borders.at(-1)?.getTime() ?? 0) - (borders[0]?.getTime() ?? 0)) / 3_600_000
  return Math.max(1, Math.ceil(MOST_MOVES_PER_HOUR * hours))
}

function movesTooMany(grid: Grid, plan: Plan, slot: number): number {
  const most = mostMoves(grid)
  let breaches = 0
  for (let s = 0; s < grid.stations.length; s++) {
    if (!begins(grid, plan, s, slot)) continue
    let moves = 0
    for (let t = 1; t <= slot; t++) if (begins(grid, plan, s, t)) moves++
    if (moves > most) breaches++
  }
  return breaches
}

/** The last half hour holds a showpiece that most see. */
function lastWithoutShowpiece(grid: Grid, plan: Plan, slot: number): number {
  if (slot < grid.slots - LAST_SLOTS) return 0
  for (let s = 0; s < grid.stations.length; s++) {
    if (isShowpiece(grid, s, shownAt(grid, plan, s, slot), slot)) return 0
  }
  return 1
}

/** True when what a station would show in a quarter is a showpiece that most see. */
export const isShowpiece = (grid: Grid, station: number, candidate: number, slot: number): boolean =>
  (grid.candidates[candidate]?.appeal ?? 0) >= SHOWPIECE_APPEAL &&
  (grid.chance[cellAt(grid, station, candidate, slot)] ?? 0) >= SHOWPIECE_CHANCE

/** One station reached from a chair and one for children show one of the three best things, where the row has such stations. */
function bestOutOfReach(grid: Grid, plan: Plan, slot: number): number {
  let [chairs, low, chairBest, lowBest] = [false, false, false, false]
  for (const [s, station] of grid.stations.entries()) {
    const c = shownAt(grid, plan, s, slot)
    const isBest = c >= 0 && grid.isBest[c * grid.slots + slot] === 1
    if (station.isForChair) [chairs, chairBest] = [true, chairBest || isBest]
    if (station.isForChildren) [low, lowBest] = [true, lowBest || isBest]
  }
  return (chairs && !chairBest ? 1 : 0) + (low && !lowBest ? 1 : 0)
}

/** At least three quarters of the stations that show something, rounded up, show different things. */
function rowAlike(grid: Grid, plan: Plan, slot: number): number {
  let [showing, different] = [0, 0]
  for (let s = 0; s < grid.stations.length; s++) {
    const c = shownAt(grid, plan, s, slot)
    if (c < 0) continue
    showing++
    if (shownBefore(grid, plan, s, slot) === 0) different++
  }
  return Math.max(0, mostDifferent(showing) - different)
}

/** How many of so many stations show different things. */
export const mostDifferent = (showing: number): number => Math.ceil(0.75 * showing)

/** At how many stations before this one in the row the same target is shown. */
function shownBefore(grid: Grid, plan: Plan, station: number, slot: number): number {
  const target = grid.targetOf[shownAt(grid, plan, station, slot)]
  let before = 0
  for (let s = 0; s < station; s++) {
    const c = shownAt(grid, plan, s, slot)
    if (c >= 0 && grid.targetOf[c] === target) before++
  }
  return before
}

/** One telescope in four, rounded up, shows something that anyone sees. */
function tooHardForAnyone(grid: Grid, plan: Plan, slot: number): number {
  let easy = 0
  for (let s = 0; s < grid.stations.length; s++) {
    const c = shownAt(grid, plan, s, slot)
    if (c >= 0 && (grid.chance[cellAt(grid, s, c, slot)] ?? 0) >= ANYONE) easy++
  }
  return Math.max(0, Math.ceil(grid.stations.length / 4) - easy)
}

/** With the Moon up, the Moon is on somewhere; a row of one telescope would show nothing else, so it is free. */
function moonMissing(grid: Grid, plan: Plan, slot: number): number {
  if (!grid.isMoonUp[slot] || grid.stations.length < 2) return 0
  for (let s = 0; s < grid.stations.length; s++) {
    const c = shownAt(grid, plan, s, slot)
    if (c >= 0 && grid.candidates[c]?.kind === 'moon') return 0
  }
  return 1
}

/** No object at more telescopes at once than it bears; a whole and a close Moon count together. */
function shownTooOften(grid: Grid, plan: Plan, slot: number): number {
  let breaches = 0
  for (let s = 0; s < grid.stations.length; s++) {
    const candidate = grid.candidates[shownAt(grid, plan, s, slot)]
    if (candidate === undefined) continue
    if (shownBefore(grid, plan, s, slot) >= candidate.atOnce) breaches++
  }
  return breaches
}
