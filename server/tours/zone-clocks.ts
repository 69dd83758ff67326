import { DateTime, IANAZone } from 'luxon'

const DAY_MS = 86_400_000
const WEEK_DAYS = 7
const WEEKS = 53

/**
 * True when the clocks of two zones agree on every day of the year that begins at `from`, under whatever names. Weeks in
 * which neither is changed are looked at once, the others day by day.
 */
export function haveSameClocks(zone: string, other: string, from: Date): boolean {
  if (zone === other) return true
  const zones = [IANAZone.create(zone), IANAZone.create(other)]
  const noon = DateTime.fromJSDate(from, { zone: 'utc' }).startOf('day').plus({ hours: 12 }).toMillis()
  const offsetsOn = (day: number): number[] => zones.map((one) => one.offset(noon + day * DAY_MS))
  const agree = (day: number): boolean => new Set(offsetsOn(day)).size === 1
  const weeks = Array.from({ length: WEEKS + 1 }, (_, week) => offsetsOn(week * WEEK_DAYS))
  return weeks.every(([one, two], week) => {
    const [nextOne, nextTwo] = weeks[week + 1] ?? [one, two]
    if (one !== two) return false
    const isChanged = one !== nextOne || two !== nextTwo
    return !isChanged || Array.from({ length: WEEK_DAYS }, (_, day) => week * WEEK_DAYS + day).every(agree)
  })
}
