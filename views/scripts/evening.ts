// When the page changes although nobody acts: at the half hours of the evening and when the plan moves on, by the laptop's clock.
import type { Change } from './live.ts'

const HALF_HOUR_MS = 30 * 60_000
const MINUTE_MS = 60_000
/** So that a fast rehearsal does not keep the laptop busy. */
const LEAST_MS = 2_000

/** How long until then, in milliseconds of the phone; null when the evening stands still or was not told. */
export function msToNext({ field, zone, speed }: Pick<Change, 'field' | 'zone' | 'speed'>): number | null {
  if (!field || !zone || !speed) return null
  const atMs = Date.parse(field.at)
  const turns = field.stations.flatMap(({ untilAt, next }) => [untilAt, next?.atAt ?? null])
  const ahead = turns.map((turn) => Date.parse(turn ?? '') - atMs).filter((ms) => ms > 0)
  return Math.max(LEAST_MS, Math.min(msToHalfHour(atMs, zone), ...ahead) / speed)
}

/** Zones differ from each other by quarter hours too, so the half hour is that of the site. */
function msToHalfHour(atMs: number, zone: string): number {
  const minute = Number(new Intl.DateTimeFormat('en', { timeZone: zone, minute: 'numeric' }).format(atMs))
  return HALF_HOUR_MS - (((minute * MINUTE_MS) % HALF_HOUR_MS) + (atMs % MINUTE_MS))
}
