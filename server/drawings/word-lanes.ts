/** What wants to stand beside a line that comes from `x`: so wide, so many lanes high. */
export interface Wanted {
  readonly x: number
  readonly widthMm: number
  readonly lines: number
  readonly sides: readonly Side[]
}

export type Side = 'above' | 'below'

/** Where it stands: in the lanes from `lane` (1 is nearest to the staff) away from the staff, from x1 to x2. */
export interface Placed {
  readonly side: Side
  readonly lane: number
  readonly lines: number
  readonly x1: number
  readonly x2: number
  /** The line that leads to it. */
  readonly x: number
}

export interface Room {
  readonly leftMm: number
  readonly rightMm: number
}

/** Air between a line and its words, and between words. */
const BESIDE_MM = 1
const APART_MM = 2
const CROSSING_COST = 6
const ABOVE_COST = 0.3
const LEFTWARD_COST = 0.2

/**
 * Gives each a place where none covers another, as near to the staff and with as few lines through words as can be had by
 * turns: those that can run to the right from the last to the first, then those at the right edge from the first to the last.
 */
export function placeAll(wanted: readonly Wanted[], room: Room): readonly Placed[] {
  const isRightward = ({ x, widthMm }: Wanted): boolean => x + BESIDE_MM + widthMm <= room.rightMm
  const order = [
    ...wanted.filter(isRightward).sort((a, b) => b.x - a.x),
    ...wanted.filter((it) => !isRightward(it)).sort((a, b) => a.x - b.x),
  ]
  const placed = new Map<Wanted, Placed>()
  for (const it of order) placed.set(it, bestPlace(it, [...placed.values()], room))
  return wanted.flatMap((it) => placed.get(it) ?? [])
}

/** The place in lane 1, to the left of its line, where what ends there was, or to the right; null when neither is free. */
export function placeNear(it: Wanted, taken: readonly Placed[], room: Room): Placed | null {
  const found = candidates(it, 1, room).filter((place) => isFree(place, taken) && crossings(place, taken) === 0)
  return found.find(({ x2 }) => x2 < it.x) ?? found[0] ?? null
}

function bestPlace(it: Wanted, taken: readonly Placed[], room: Room): Placed {
  const deepest = Math.max(0, ...taken.map(({ lane, lines }) => lane + lines - 1))
  const all: { place: Placed; cost: number }[] = []
  for (let lane = 1; lane <= deepest + 1; lane++) {
    for (const place of candidates(it, lane, room)) {
      if (isFree(place, taken)) all.push({ place, cost: costOf(place, taken) })
    }
  }
  const [first, ...others] = all
  if (first === undefined) throw new RangeError('Words are wider than the sheet.')
  return others.reduce((best, next) => (next.cost < best.cost ? next : best), first).place
}

function candidates({ x, widthMm, lines, sides }: Wanted, lane: number, { leftMm, rightMm }: Room): Placed[] {
  const starts = [x + BESIDE_MM, x - BESIDE_MM - widthMm].filter((x1) => x1 >= leftMm && x1 + widthMm <= rightMm)
  if (starts.length === 0) starts.push(Math.max(leftMm, rightMm - widthMm))
  return sides.flatMap((side) => starts.map((x1) => ({ side, lane, lines, x, x1, x2: x1 + widthMm })))
}

const costOf = (place: Placed, taken: readonly Placed[]): number =>
  place.lane +
  place.lines +
  CROSSING_COST * crossings(place, taken) +
  (place.side === 'above' ? ABOVE_COST : 0) +
  (place.x2 < place.x ? LEFTWARD_COST : 0)

const isFree = (place: Placed, taken: readonly Placed[]): boolean =>
  taken.every(
    (other) =>
      other.side !== place.side ||
      other.x1 >= place.x2 + APART_MM ||
      place.x1 >= other.x2 + APART_MM ||
      other.lane >= place.lane + place.lines ||
      place.lane >= other.lane + other.lines,
  )

const crossings = (place: Placed, taken: readonly Placed[]): number =>
  taken.filter((other) => passes(place, other) || passes(other, place)).length

/** True when the line to one goes through the words of the other. */
const passes = (line: Placed, words: Placed): boolean =>
  line.side === words.side &&
  line.lane > words.lane &&
  line.x > words.x1 - BESIDE_MM / 2 &&
  line.x < words.x2 + BESIDE_MM / 2
