import { type Dated, halfHourStarts, instantOf } from './hours.ts'
import type { HalfHour, Night } from './night.ts'

/** So many people. */
export interface Heads {
  readonly adults: number
  readonly children: number
}

/** People on the field, of whom `seated` need a chair's height. */
export interface People extends Heads {
  readonly seated: number
}

/** 15 to 25 people at a telescope are a line of 12 to 20 minutes, still comfortable (common practice, no source). */
const USUAL_AT_TELESCOPE = 20

/**
 * People on the field at an instant: the row of its half hour, else the nearest earlier row, else the first one. A night
 * without a table has twenty adults at every telescope.
 */
export function peopleAt(night: Night, at: Date): People {
  const rows = night.visitors.map((row) => ({ row, ms: instantOf(night, row.startsAt).getTime() }))
  rows.sort((a, b) => a.ms - b.ms)
  const row: HalfHour | undefined = rows.findLast(({ ms }) => ms <= at.getTime())?.row ?? rows[0]?.row
  return row ?? usualPeople(night)
}

/** Children among them in the first half of an evening, and in the second: they come first and leave first (a choice). */
const USUAL_CHILDREN = { first: 8, second: 2 }

/** The usual table of people for so many telescopes. */
export function usualVisitors(night: Dated, telescopes: number): HalfHour[] {
  const starts = halfHourStarts(night)
  return starts.map((startsAt, i) => {
    const children = i < starts.length / 2 ? USUAL_CHILDREN.first : USUAL_CHILDREN.second
    return {
      startsAt,
      adults: (USUAL_AT_TELESCOPE - children) * telescopes,
      children: children * telescopes,
      seated: 0,
    }
  })
}

function usualPeople({ stations }: Night): People {
  const telescopes = stations.filter(({ telescope }) => telescope !== null).length
  return { adults: USUAL_AT_TELESCOPE * telescopes, children: 0, seated: 0 }
}

/** All of them. */
export const countOf = ({ adults, children }: Heads): number => adults + children

/** Children among them, 0 to 1; 0 on an empty field. */
export const childShareOf = (people: People): number => people.children / Math.max(1, countOf(people))
