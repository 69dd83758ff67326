import { nightHours, wallClock } from '../../tours/hours.ts'
import type { Season } from '../../tours/report-season.ts'
import type { Words } from '../../words/words.ts'
import type { Cell } from '../csv.ts'
import { type ReportGround, reportNumbers, stationText } from './report-words.ts'
import type { Names } from './say.ts'

type Line = readonly Cell[]

const HEAD = ['part', 'name', 'station', 'from', 'to', 'how', 'reckoned', 'host', 'words'] as const

/** A line of the list by its columns; what is not named is empty. */
const lineOf = (cells: Partial<Record<(typeof HEAD)[number], Cell>>): Line =>
  HEAD.map((column) => cells[column] ?? null)

/** The report of a night as lines under one head: one line a number, a showing, a half hour, a wait, a word. */
export function reportCsv(ground: ReportGround): readonly Line[] {
  const { report, mayHost } = ground
  const { night, facts, edits } = report
  const { opensAt, closesAt } = nightHours(night)
  const said = [
    ['sky', edits.sky],
    ['weather', edits.weather],
    ...(mayHost
      ? ([
          ['helpers', edits.helpers],
          ['improve', edits.improve],
        ] as const)
      : []),
  ] as const
  const ran = facts.ran ? { from: facts.ran.fromAt.toISOString(), to: facts.ran.toAt.toISOString() } : {}
  return [
    HEAD,
    lineOf({
      part: 'night',
      name: night.title,
      from: opensAt.toISOString(),
      to: closesAt.toISOString(),
      words: night.site.name,
    }),
    lineOf({ part: 'ran', ...ran }),
    ...reportNumbers(report).map(({ key, reckoned, host }) => lineOf({ part: 'number', name: key, reckoned, host })),
    ...shownLines(ground),
    ...waitLines(ground),
    ...said.filter(([, text]) => text !== '').map(([name, text]) => lineOf({ part: 'words', name, words: text })),
  ]
}

function shownLines(ground: ReportGround): readonly Line[] {
  const { names, report } = ground
  const { showings, looksByTarget, seen, skipped } = report.facts
  return [
    ...showings.map(({ targetKey, stationId, fromAt, toAt, told, by, looks }) =>
      lineOf({
        part: 'shown',
        name: names.nameOf(targetKey),
        station: stationText(ground, stationId),
        from: fromAt.toISOString(),
        to: toAt.toISOString(),
        how: by === null ? told : `${told} ${by}`,
        reckoned: looks,
      }),
    ),
    ...looksByTarget.map(({ targetKey, looks }) =>
      lineOf({ part: 'looks by target', name: names.nameOf(targetKey), reckoned: looks }),
    ),
    ...seen.flatMap((one) =>
      (['they', 'half', 'not'] as const).map((how) =>
        lineOf({ part: 'seen', name: names.nameOf(one.targetKey), how, reckoned: one[how] }),
      ),
    ),
    ...skipped.map(({ targetKey, stationId, why, at }) =>
      lineOf({
        part: 'skipped',
        name: names.nameOf(targetKey),
        station: stationId && stationText(ground, stationId),
        from: at.toISOString(),
        how: why,
      }),
    ),
  ]
}

function waitLines(ground: ReportGround): readonly Line[] {
  const { night, facts } = ground.report
  const clock = (at: Date) => ({ name: wallClock(at, night.site.zone), from: at.toISOString() })
  return [
    ...facts.halfHours.flatMap(({ at, looks, adults, children }) => [
      lineOf({ part: 'looks by half hour', ...clock(at), reckoned: looks }),
      lineOf({ part: 'people then', ...clock(at), reckoned: adults + children }),
    ]),
    ...facts.waits.flatMap(({ at, stations }) =>
      stations.map(({ stationId, waitMin, isMeasured }) =>
        lineOf({
          part: 'wait in minutes',
          ...clock(at),
          station: stationText(ground, stationId),
          how: isMeasured ? 'timed' : 'planned',
          reckoned: Math.round(waitMin),
        }),
      ),
    ),
  ]
}

/** A season as lines: one a night, then looks by target and by hour, then visitors by month. */
export function seasonCsv(words: Words, season: Season, names: Names, mayHost: boolean): readonly Line[] {
  const head = [
    'part',
    'name',
    'date',
    'place',
    'looks',
    'adults',
    'children',
    'volunteer_minutes',
    'operators',
  ] as const
  const line = (cells: Partial<Record<(typeof head)[number], Cell>>): Line =>
    head.map((column) => cells[column] ?? null)
  return [
    head,
    ...season.nights.map(({ title, date, place, looks, came, volunteerMin, operators }) =>
      line({
        ...{ part: 'night', name: title, date, place, looks, volunteer_minutes: volunteerMin },
        ...{ adults: came?.adults ?? null, children: came?.children ?? null },
        operators: mayHost ? operators.join('; ') : null,
      }),
    ),
    ...season.looksByTarget.map(({ targetKey, looks }) =>
      line({ part: 'target', name: names.nameOf(targetKey), looks }),
    ),
    ...season.looksByHour.map(({ hour, looks }) => line({ part: 'hour', name: String(hour).padStart(2, '0'), looks })),
    ...season.visitorsByMonth.map(({ month, adults, children }) =>
      line({ part: 'month', name: words.month(month), adults, children }),
    ),
  ]
}
