import { wallClock } from './hours.ts'
import type { Night } from './night.ts'
import type { NightFacts } from './report.ts'
import { cameOf, type ReportEdits, volunteerTime } from './report-edits.ts'
import { sumOf } from './report-shares.ts'
import type { Heads } from './visitors.ts'

/** One night of a season. */
interface SeasonNight {
  readonly nightId: string
  readonly title: string
  readonly date: string
  readonly place: string
  readonly isClosed: boolean
  readonly targets: number
  /** As reckoned, so that all parts of a season add up to it. */
  readonly looks: number
  /** Null where nobody counted. */
  readonly came: Heads | null
  readonly volunteerMin: number
  readonly operators: readonly string[]
}

export interface Season {
  readonly year: number
  /** The earliest first. */
  readonly nights: readonly SeasonNight[]
  readonly looks: number
  readonly came: Heads
  /** Nights of which the people are known. */
  readonly countedNights: number
  readonly volunteerMin: number
  /** The most first. */
  readonly looksByTarget: readonly { readonly targetKey: string; readonly looks: number }[]
  /** By the hour of the site's clocks, in the order of an evening. */
  readonly looksByHour: readonly { readonly hour: number; readonly looks: number }[]
  /** Every month from the first that has a night to the last; 1 to 12. */
  readonly visitorsByMonth: readonly ({ readonly month: number; readonly nights: number } & Heads)[]
}

interface SeasonInput {
  readonly night: Night
  readonly facts: NightFacts
  readonly edits: ReportEdits
}

/** Nights of one year side by side. */
export function seasonOf(year: number, given: readonly SeasonInput[]): Season {
  const inputs = given.toSorted((a, b) => a.night.date.localeCompare(b.night.date))
  const nights = inputs.map(nightOf)
  const known = nights.flatMap(({ came }) => (came === null ? [] : [came]))
  return {
    year,
    nights,
    looks: sumOf(nights.map(({ looks }) => looks)),
    came: peopleIn(known),
    countedNights: known.length,
    volunteerMin: sumOf(nights.map(({ volunteerMin }) => volunteerMin)),
    looksByTarget: byTarget(inputs),
    looksByHour: byHour(inputs),
    visitorsByMonth: byMonth(nights),
  }
}

const nightOf = ({ night, facts, edits }: SeasonInput): SeasonNight => ({
  nightId: night.id,
  title: night.title,
  date: night.date,
  place: night.site.name,
  isClosed: night.state === 'closed',
  targets: facts.looksByTarget.length,
  looks: facts.looks,
  came: cameOf(facts, edits),
  volunteerMin: volunteerTime(night, facts, edits).totalMin,
  operators: [...new Set(night.stations.map(({ operator }) => operator).filter((name) => name !== ''))],
})

const peopleIn = (all: readonly Heads[]): Heads => ({
  adults: sumOf(all.map(({ adults }) => adults)),
  children: sumOf(all.map(({ children }) => children)),
})

function byTarget(inputs: readonly SeasonInput[]): Season['looksByTarget'] {
  const all = inputs.flatMap(({ facts }) => facts.looksByTarget)
  const keys = [...new Set(all.map(({ targetKey }) => targetKey))]
  return keys
    .map((targetKey) => ({
      targetKey,
      looks: sumOf(all.filter((one) => one.targetKey === targetKey).map(({ looks }) => looks)),
    }))
    .sort((a, b) => b.looks - a.looks)
}

const MIDDAY_HOUR = 12

function byHour(inputs: readonly SeasonInput[]): Season['looksByHour'] {
  const looks = new Map<number, number>()
  for (const { night, facts } of inputs) {
    for (const half of facts.halfHours) {
      const hour = Number(wallClock(half.at, night.site.zone).slice(0, 2))
      looks.set(hour, (looks.get(hour) ?? 0) + half.looks)
    }
  }
  const fromNoon = (hour: number): number => (hour + 24 - MIDDAY_HOUR) % 24
  return [...looks].map(([hour, sum]) => ({ hour, looks: sum })).sort((a, b) => fromNoon(a.hour) - fromNoon(b.hour))
}

function byMonth(nights: readonly SeasonNight[]): Season['visitorsByMonth'] {
  const months = nights.map(({ date }) => Number(date.slice(5, 7)))
  const [first, last] = [Math.min(...months), Math.max(...months)]
  return Array.from({ length: Math.max(0, last - first + 1) || 0 }, (_, i) => {
    const there = nights.filter((_night, k) => months[k] === first + i)
    return { month: first + i, nights: there.length, ...peopleIn(there.flatMap(({ came }) => came ?? [])) }
  })
}
