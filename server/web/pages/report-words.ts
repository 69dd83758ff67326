import type { NightReport } from '../../desk/reports.ts'
import { nightHours } from '../../tours/hours.ts'
import type { NightFacts } from '../../tours/report.ts'
import { cameOf, hoursRun, visitorsOf, volunteerTime } from '../../tours/report-edits.ts'
import type { CountedShowing } from '../../tours/report-looks.ts'
import type { Words } from '../../words/words.ts'
import { lastsText } from './go-text.ts'
import type { Names } from './say.ts'

/** Who reads a report; people's names are the host's alone. */
export interface ReportGround {
  readonly words: Words
  readonly names: Names
  readonly report: NightReport
  readonly mayHost: boolean
}

export const MISSING = '–'

export const clockText = ({ words, report }: ReportGround, at: Date): string => words.time(at, report.night.site.zone)

/** The public hours as they were announced. */
export const publicHours = ({
  words,
  report: { night },
}: ReportGround): { readonly from: string; readonly to: string } => {
  const { opensAt, closesAt } = nightHours(night)
  return { from: words.time(opensAt, night.site.zone), to: words.time(closesAt, night.site.zone) }
}

export const spanText = (ground: ReportGround, span: NightFacts['ran']): string =>
  span === null
    ? MISSING
    : ground.words.say('page.from-to', { from: clockText(ground, span.fromAt), to: clockText(ground, span.toAt) })

/** The name of a station, of one that has left the row too. */
export const stationText = ({ report, names }: ReportGround, id: string): string =>
  report.stations.find((station) => station.id === id)?.name || names.nameOf(id)

export const minutesText = (words: Words, minutes: number): string => lastsText(words, minutes * 60_000)

/** How a showing is known, and how its looks were reckoned. */
export function howText({ words }: ReportGround, { told, by, timedSec }: CountedShowing): string {
  const said = words.say(`report.told-${told}`)
  if (by === null) return said
  const looks = words.say(`report.by-${by}`, { seconds: words.number(timedSec ?? 0) })
  return words.say('report.told-and-by', { told: said, by: looks })
}

/** The estimate of visitors from looks in one sentence with what it takes for granted, or why there is none. */
export function estimateText({ words, report }: ReportGround): string {
  const { estimate } = report.facts
  if (estimate === null) return words.say('report.no-estimate')
  return words.say('report.estimate-how', {
    looks: words.number(estimate.looks),
    each: words.number(estimate.looksPerVisitor, 1),
    visitors: words.number(estimate.visitors),
    people: words.number(Math.round(estimate.meanPeople)),
    stay: words.number(estimate.stayMin),
  })
}

export function volunteerText(ground: ReportGround): string {
  const { words, report } = ground
  const { stations, extraHelpers, openMin, setUpMin, totalMin } = volunteerTime(
    report.night,
    report.facts,
    report.edits,
  )
  if (openMin === 0) return words.say('report.volunteers-none')
  return words.say('report.volunteers-how', {
    stations,
    others: extraHelpers,
    open: minutesText(words, openMin),
    setUp: minutesText(words, setUpMin),
    total: minutesText(words, totalMin),
  })
}

/** One number of a report: as reckoned, and beside it as the host says it, each null where nobody knows. */
interface ReportNumber {
  readonly key: string
  readonly reckoned: number | null
  readonly host: number | null
}

/** The numbers of a night, each as reckoned and as the host says it. */
export function reportNumbers({ facts, edits }: NightReport): readonly ReportNumber[] {
  const { people, estimate, looks } = facts
  const counted = (count: number): number | null => (people.isCounted ? count : null)
  const corrected = edits.adults !== undefined || edits.children !== undefined
  return [
    { key: 'adults', reckoned: counted(people.came.adults), host: edits.adults ?? null },
    { key: 'children', reckoned: counted(people.came.children), host: edits.children ?? null },
    {
      key: 'visitors',
      reckoned: counted(people.came.adults + people.came.children),
      host: corrected ? visitorsOf(cameOf({ people }, edits)) : null,
    },
    { key: 'adults-out', reckoned: counted(people.left.adults), host: null },
    { key: 'children-out', reckoned: counted(people.left.children), host: null },
    { key: 'peak', reckoned: people.peak?.people ?? null, host: edits.peak ?? null },
    { key: 'looks', reckoned: looks, host: edits.looks ?? null },
    { key: 'estimate', reckoned: estimate?.visitors ?? null, host: null },
  ]
}

/** The hours as run that count, and whether the host put them right. */
export const runHours = ({ night, facts, edits }: NightReport): NightFacts['ran'] => hoursRun(night, facts, edits)
