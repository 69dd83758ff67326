import type { EveningSky } from './evening.ts'
import type { EveningChance } from './evening-chance.ts'
import { cellAt, type Grid } from './grid.ts'
import { openGridOf, wishedGrid } from './grid-make.ts'
import { wallClock } from './hours.ts'
import { isNamed, slotsOf } from './limits.ts'
import { type Gate, whyNotOf, whyNotWithin } from './offered.ts'
import { ASKED_SLOTS } from './rules.ts'
import { instantAtStep, stepAt } from './sky-at.ts'
import type { Cause, Remark } from './tour.ts'
import type { Wish } from './wish.ts'
import { clashesOf, hoursOf, isAsleep, placeName, thingName, type WishGround } from './wish-clashes.ts'

/** Why a wish cannot be met, and what would resolve it, as sentences in their order. */
export interface WishConflict {
  readonly wishId: string
  readonly remarks: readonly Remark[]
}

interface WishInput extends WishGround {
  readonly sky: EveningSky
  readonly chance: EveningChance
}

/** Every wish that cannot be met on this night, each with its sentences; [] when all can. */
export function conflictsOf(input: WishInput): readonly WishConflict[] {
  const awake = input.wishes.filter((wish) => !isAsleep(input, wish))
  const ground = { ...input, wishes: awake }
  const open = openGridOf(ground)
  return awake.flatMap((wish) => {
    const clashes = clashesOf(ground, wish)
    const remarks = clashes.length > 0 ? clashes : misplaced(ground, open, wish)
    return remarks.length > 0 ? [{ wishId: wish.id, remarks }] : []
  })
}

function misplaced(input: WishInput, open: Grid, wish: Wish): readonly Remark[] {
  if (wish.kind === 'bar') return []
  const { targetKey } = wish
  if (targetKey !== null && !input.sky.targetKeys.includes(targetKey)) return [{ code: 'wish.unknown' }]
  if (wish.kind === 'pin') return pinMisplaced(input, open, wish)
  return wish.kind === 'ask' ? askMisplaced(input, open, wish) : purposeMisplaced(input, open, wish)
}

/** True where a grid has something on offer that a wish names. */
const isOn = (grid: Grid, wish: Wish, station: number, slot: number): boolean =>
  grid.candidates.some(
    (candidate, c) => isNamed(wish, candidate) && (grid.worth[cellAt(grid, station, c, slot)] ?? 0) > 0,
  )

/** The longest times in a row, at least so many quarters long, in which a wish could be met at a station. */
function spansAt(grid: Grid, wish: Wish, station: number, least = 1): readonly (readonly [number, number])[] {
  const spans: (readonly [number, number])[] = []
  let from = 0
  for (let t = 0; t <= grid.slots; t++) {
    if (t < grid.slots && isOn(grid, wish, station, t)) continue
    if (t - from >= least) spans.push([from, t])
    from = t + 1
  }
  return spans
}

function pinMisplaced(input: WishInput, open: Grid, wish: Wish): readonly Remark[] {
  const station = open.stations.findIndex(({ id }) => id === wish.stationId)
  const [from, to] = slotsOf(wish, input.night, open.borders)
  for (let t = from; t < to; t++) {
    if (isOn(open, wish, station, t)) continue
    return [
      reason(input, wish, causeAt(input, open, wish, station, t), hoursOf(input.night, t, t + 1).from),
      wouldDo(input, open, wish, station, t),
    ]
  }
  return []
}

/** Where and when a pinned thing would do instead, nearest to the time wished. */
function wouldDo(input: WishInput, open: Grid, wish: Wish, station: number, slot: number): Remark {
  const apart = ([from, to]: readonly [number, number]): number => Math.max(from - slot, slot - to, 0)
  const [nearest] = [...spansAt(open, wish, station)].sort((a, b) => apart(a) - apart(b))
  const there = placeName(input, wish.stationId)
  if (nearest) return { code: 'wish.would-do', values: { station: there, ...hoursOf(input.night, ...nearest) } }
  const other = open.stations.find((_, s) => isOn(open, wish, s, slot))
  if (other) return { code: 'wish.would-do-at', values: { station: placeName(input, other.id) } }
  return tonightOf(input, open, wish)
}

function askMisplaced(input: WishInput, open: Grid, wish: Wish): readonly Remark[] {
  const least = Math.min(ASKED_SLOTS, open.slots)
  const fits = (grid: Grid): boolean => grid.stations.some((_, s) => spansAt(grid, wish, s, least).length > 0)
  if (fits(open)) {
    const others = input.wishes.filter((other) => other.id !== wish.id && !isBarEverywhere(other, wish))
    const isFree = fits(wishedGrid(open, input.night, others))
    return isFree ? [] : [{ code: 'wish.no-room', values: { target: thingName(input, wish.targetKey) } }]
  }
  const middle = open.slots >> 1
  const causes = open.stations.map((_, s) => causeAt(input, open, wish, s, middle))
  const cause = causes.find(({ code }) => code === 'faint') ?? causes[0] ?? { code: 'set' }
  return [reason(input, wish, cause, hoursOf(input.night, middle, middle).from), tonightOf(input, open, wish)]
}

/** True for a bar that contradicts a wish already by its words. */
const isBarEverywhere = ({ kind, stationId, targetKey }: Wish, wish: Wish): boolean =>
  kind === 'bar' && stationId === null && targetKey === wish.targetKey

function purposeMisplaced(input: WishInput, open: Grid, wish: Wish): readonly Remark[] {
  const station = open.stations.findIndex(({ id }) => id === wish.stationId)
  if (spansAt(open, wish, station).length > 0) return []
  const never: Remark = { code: 'wish.purpose-never', values: { station: placeName(input, wish.stationId) } }
  if (wish.targetKey === null) return [never]
  const middle = open.slots >> 1
  const cause = causeAt(input, open, wish, station, middle)
  return [reason(input, wish, cause, hoursOf(input.night, middle, middle).from), never]
}

/** What stands in the way of a target at a station in a quarter; too faint where nothing does. */
function causeAt(input: WishInput, open: Grid, wish: Wish, station: number, slot: number): Cause {
  const [fromAt, toAt] = [open.borders[slot], open.borders[slot + 1]]
  const gate = gateOf(input, open, station)
  if (!fromAt || !toAt || !gate) return { code: 'faint' }
  const index = input.sky.targetKeys.indexOf(wish.targetKey ?? '')
  return whyNotWithin(gate, index, stepAt(input.sky, fromAt), stepAt(input.sky, toAt)) ?? { code: 'faint' }
}

function gateOf({ sky, night }: WishInput, open: Grid, station: number): Gate | null {
  const telescope = open.stations[station]?.telescope
  return telescope ? { sky, site: night.site, mount: telescope } : null
}

function reason(input: WishInput, wish: Wish, cause: Cause, at: string): Remark {
  const code = cause.code === 'skyline' && !cause.name ? 'trees' : cause.code
  const values = { target: thingName(input, wish.targetKey), station: placeName(input, wish.stationId), at }
  return {
    code: wish.kind === 'ask' ? `wish.ask-${code}` : `wish.pin-${code}`,
    values: { ...values, name: cause.name ?? '' },
  }
}

/** When the night holds a time outside the public hours at which a thing stands well for some telescope, for the half hour at least. */
function tonightOf(input: WishInput, open: Grid, wish: Wish): Remark {
  const { sky, night } = input
  const index = sky.targetKeys.indexOf(wish.targetKey ?? '')
  const whyNots = open.stations.flatMap((_, s) => {
    const gate = gateOf(input, open, s)
    return gate ? [whyNotOf(gate, index)] : []
  })
  const half = 30 / sky.stepMin
  let from = 0
  for (let step = 0; step <= sky.count; step++) {
    if (step < sky.count && whyNots.some((whyNot) => whyNot(step) === null)) continue
    const time = (at: number) => wallClock(instantAtStep(sky, at), night.site.zone)
    if (step - 1 - from >= half && !isInHours(open, sky, from, step - 1)) {
      return { code: 'wish.would-do-tonight', values: { from: time(from), to: time(step - 1) } }
    }
    from = step + 1
  }
  return { code: 'wish.would-not' }
}

/** True for a span that lies wholly within the public hours: then it is not the place that stands in the way. */
function isInHours({ borders }: Grid, sky: EveningSky, from: number, to: number): boolean {
  const [opensAt, closesAt] = [borders[0], borders.at(-1)]
  if (!opensAt || !closesAt) return false
  return from >= stepAt(sky, opensAt) && to <= stepAt(sky, closesAt)
}
