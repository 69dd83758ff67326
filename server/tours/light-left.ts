import type { ObjectKind, ShowObject } from './target.ts'

/** Something that happened on Earth: years AD, negative ones BC, the same twice for what one year saw. */
export interface WorldEvent {
  readonly fromYear: number
  readonly toYear: number
  /** Ends a sentence that began "Its light set out when": `people in Peru were building Caral`. */
  readonly what: string
  readonly place: string
  readonly source: string
}

/** When the light that arrives on a night set out. */
export interface LightLeft {
  readonly yearsAgo: number
  /** The year as an instant on the scale of years AD (0 and less are BC). */
  readonly year: number
  /** How far off the year may be, either way, in years. */
  readonly uncertainYears: number
  /** The event of the table that lies nearest, if one lies within what "about" allows. */
  readonly event: WorldEvent | null
}

type Far = Pick<ShowObject, 'kind' | 'distanceLy' | 'distancePercent'>

const STAR_KINDS: readonly ObjectKind[] = ['star', 'red-star', 'double']
/** Our judgement of how well distances of a kind are known, in per cent; stars by how far they are. */
const PERCENT: Readonly<Partial<Record<ObjectKind, number>>> = {
  'open-cluster': 10,
  globular: 5,
  galaxy: 10,
  planetary: 25,
  nebula: 20,
  remnant: 20,
}
const STAR_PERCENT = [
  { belowLy: 100, percent: 3 },
  { belowLy: 1000, percent: 10 },
  { belowLy: Number.POSITIVE_INFINITY, percent: 25 },
]
const DEFAULT_PERCENT = 20

/** "About" reaches a year, or one part in twenty of the way and one in ten beyond a thousand years, where the distance itself is known better. */
const ABOUT_YEARS = 1
const aboutShare = (years: number): number => (years < 1000 ? 0.05 : 0.1)
const MS_PER_YEAR = 365.25 * 86_400_000
const J2000_MS = Date.UTC(2000, 0, 1, 12)

/** How far off the distance of a thing may be, in per cent: its own figure, else that of its kind. */
export function distancePercent({ kind, distanceLy, distancePercent: own }: Far): number {
  if (own !== null) return own
  if (STAR_KINDS.includes(kind) && distanceLy !== null)
    return STAR_PERCENT.find(({ belowLy }) => distanceLy < belowLy)?.percent ?? DEFAULT_PERCENT
  return PERCENT[kind] ?? DEFAULT_PERCENT
}

/** When the light that arrives at an instant set out, and what went on then; null for things of unknown distance. */
export function lightLeft(object: Far, at: Date, events: readonly WorldEvent[]): LightLeft | null {
  const { distanceLy } = object
  if (distanceLy === null) return null
  const year = 2000 + (at.getTime() - J2000_MS) / MS_PER_YEAR - distanceLy
  const uncertainYears = (distanceLy * distancePercent(object)) / 100
  const reach = Math.max(uncertainYears, ABOUT_YEARS, distanceLy * aboutShare(distanceLy))
  return { yearsAgo: distanceLy, year, uncertainYears, event: nearest(year, reach, events) }
}

function nearest(year: number, reach: number, events: readonly WorldEvent[]): WorldEvent | null {
  let [best, least] = [null as WorldEvent | null, reach]
  for (const event of events) {
    const off = offBy(year, event)
    if (off <= least && (best === null || off < least)) [best, least] = [event, off]
  }
  return best
}

/** Nought inside the event's years, the last of them to its end; else the way to them. */
const offBy = (year: number, { fromYear, toYear }: WorldEvent): number =>
  Math.max(0, fromYear - year, year - (toYear + 1))
