import type { TourInput } from './build.ts'
import { daylightOf } from './daylight.ts'
import { cellAt, type Grid, type Plan, shownAt } from './grid.ts'
import { remarkClock } from './hours.ts'
import { newsOf } from './news.ts'
import { missingTargets, RULES } from './rules.ts'
import type { Remark } from './tour.ts'

/** What a host must be told of a plan from a quarter on: what the row lacks, when stations stand idle, and which rules gave way when. */
export function noticesOf(input: TourInput, grid: Grid, plan: Plan, since = 0): readonly Remark[] {
  if (grid.stations.length === 0) return [{ code: 'tour.no-telescope' }]
  if (grid.candidates.length === 0) return [daylightOf(input) ?? { code: 'tour.nothing-visible' }]
  if (isNothingAhead(grid, since)) return [{ code: 'tour.nothing-ahead' }]
  return [
    ...rowLacks(grid),
    ...idleStations(input, grid, plan, since),
    ...notShown(input, grid, plan),
    ...givenWay(input, grid, plan, since),
  ]
}

/** True for a night under way with nothing left to show. */
const isNothingAhead = ({ ranked, slots }: Grid, since: number): boolean =>
  since > 0 && ranked.every((offered, at) => at % slots < since || offered.length === 0)

/** What was asked for and is on for half an hour nowhere. */
function notShown({ objects }: TourInput, grid: Grid, plan: Plan): Remark[] {
  return missingTargets(grid, plan).map((target) => {
    const key = grid.candidates[grid.targetOf.indexOf(target)]?.targetKey ?? ''
    return { code: 'rule.asked', values: { name: objects.find((object) => object.key === key)?.name ?? key } }
  })
}

function rowLacks(grid: Grid): Remark[] {
  const lacksChair = !grid.stations.some((station) => station.isForChair)
  const lacksLow = !grid.stations.some((station) => station.isForChildren)
  return [
    ...(lacksChair ? [{ code: 'tour.no-chair-station' }] : []),
    ...(lacksLow ? [{ code: 'tour.no-children-station' }] : []),
  ]
}

/** Times in which a station has nothing on the programme. */
function idleStations(input: TourInput, grid: Grid, plan: Plan, since: number): Remark[] {
  const { again, night } = input
  const gone = again ? newsOf(night, again.marks, again.at).out : []
  return grid.stations.flatMap(({ id }, s) => {
    if (gone.includes(id)) return []
    const name = input.night.stations.find((station) => station.id === id)?.name ?? id
    const isIdle = (slot: number) => shownAt(grid, plan, s, slot) < 0
    const hasOffer = (slot: number) => grid.candidates.some((_, c) => (grid.worth[cellAt(grid, s, c, slot)] ?? 0) > 0)
    return spansOf(grid, since, isIdle).map(([from, to]) => {
      const code = hasOffer(from) ? 'tour.station-idle' : 'tour.station-without-target'
      return { code, values: { name, ...spoken(input, grid, from, to) } }
    })
  })
}

const SAID_ONE_BY_ONE: ReadonlySet<string> = new Set(['rule.idle', 'rule.asked'])

/** Every rule that had to give way, the one that gives way last first, with its times; idle stations and what was asked for are named one by one instead. */
function givenWay(input: TourInput, grid: Grid, plan: Plan, since: number): Remark[] {
  const spokenRules = RULES.toReversed().filter(({ code }) => !SAID_ONE_BY_ONE.has(code))
  return spokenRules.flatMap(({ code, breachesAt }) =>
    spansOf(grid, since, (slot) => breachesAt(grid, plan, slot) > 0).map(([from, to]) => ({
      code,
      values: spoken(input, grid, from, to),
    })),
  )
}

/** Quarters in a row, from one on, of which something is true, as first and first after. */
function spansOf(grid: Grid, since: number, isTrue: (slot: number) => boolean): (readonly [number, number])[] {
  const spans: (readonly [number, number])[] = []
  let from = since
  for (let t = since; t <= grid.slots; t++) {
    if (t < grid.slots && isTrue(t)) continue
    if (t > from) spans.push([from, t])
    from = t + 1
  }
  return spans
}

function spoken({ night }: TourInput, grid: Grid, from: number, to: number): { from: string; to: string } {
  const time = (slot: number) => {
    const at = grid.borders[slot]
    return at === undefined ? '' : remarkClock(at, night.site.zone)
  }
  return { from: time(from), to: time(to) }
}
