import { DateTime } from 'luxon'

/** A change of the clocks: from one offset from UTC to another, in minutes. */
export interface ClockChange {
  readonly at: Date
  readonly fromMin: number
  readonly toMin: number
}

/** How the clocks of a zone stand to UTC at an instant, and what they do in a span around it. */
export interface ClockTonight {
  readonly offsetMin: number
  /** The offset of the zone itself, the clock change left out. */
  readonly zoneMin: number
  /** True while the clocks are set forward. */
  readonly isForward: boolean
  /** True where clocks are changed in that year. */
  readonly changes: boolean
  /** The change in the span; null on most nights. */
  readonly change: ClockChange | null
}

const HOUR_MS = 3_600_000
const SECOND_MS = 1000

/** The clocks at an instant, and their change between two others, at most one. */
export function clockTonight(
  zone: string,
  at: Date,
  { fromAt, untilAt }: { fromAt: Date; untilAt: Date },
): ClockTonight {
  const offsetMin = offsetAt(zone, at.getTime())
  const { year } = DateTime.fromJSDate(at, { zone })
  const inYear = [1, 7].map((month) => DateTime.fromObject({ year, month }, { zone }).offset)
  const zoneMin = Math.min(offsetMin, ...inYear)
  return {
    offsetMin,
    zoneMin,
    isForward: offsetMin > zoneMin,
    changes: [offsetMin, ...inYear].some((offset) => offset !== zoneMin),
    change: changeBetween(zone, fromAt.getTime(), untilAt.getTime()),
  }
}

const offsetAt = (zone: string, ms: number): number => DateTime.fromMillis(ms, { zone }).offset

function changeBetween(zone: string, fromMs: number, untilMs: number): ClockChange | null {
  for (let ms = fromMs; ms < untilMs; ms += HOUR_MS) {
    const [fromMin, toMin] = [offsetAt(zone, ms), offsetAt(zone, ms + HOUR_MS)]
    if (fromMin !== toMin) return { at: new Date(borderOf(zone, ms, ms + HOUR_MS)), fromMin, toMin }
  }
  return null
}

/** The first second with the later offset. */
function borderOf(zone: string, fromMs: number, untilMs: number): number {
  const later = offsetAt(zone, untilMs)
  let [low, high] = [fromMs, untilMs]
  while (high - low > SECOND_MS) {
    const middle = low + Math.floor((high - low) / (2 * SECOND_MS)) * SECOND_MS
    if (offsetAt(zone, middle) === later) high = middle
    else low = middle
  }
  return high
}
