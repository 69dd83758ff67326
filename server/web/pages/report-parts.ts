import type { GoReading } from '../../tours/go-judge.ts'
import { calendarDate } from '../../tours/hours.ts'
import { kindText, pastDecision, valueText } from './go-text.ts'
import { partText } from './hole.ts'
import { clockText, MISSING, publicHours, type ReportGround, runHours, spanText, stationText } from './report-words.ts'

/** One thing that is said, with its name. */
export interface ReportFact {
  readonly label: string
  readonly value: string
}

/** Sentences under a heading. */
export interface ReportPart {
  readonly label: string
  readonly lines: readonly string[]
}

/** When, where and whether. */
export function reportFacts(ground: ReportGround): readonly ReportFact[] {
  const { words, report } = ground
  const { night, facts, edits, go } = report
  const isPutRight = edits.ranFrom !== undefined || edits.ranTo !== undefined
  const ran = spanText(ground, facts.ran)
  const host = words.say('report.ran-host', { host: spanText(ground, runHours(report)), reckoned: ran })
  const [decision] = go.decisions
  const fact = (key: string, value: string): ReportFact => ({ label: words.say(`report.fact-${key}`), value })
  return [
    fact('date', words.date(night.date)),
    fact('place', night.site.name),
    fact('planned', words.say('page.from-to', publicHours(ground))),
    fact('ran', isPutRight ? host : ran),
    fact(
      'decision',
      decision ? decisionOf(ground, pastDecision(words, night, decision)) : words.say('report.no-decision'),
    ),
  ]
}

/** Whoever may not read names reads of the decision alone. */
const decisionOf = ({ words, report, mayHost }: ReportGround, whole: string): string =>
  mayHost ? whole : words.say(`go.state-${report.go.decisions[0]?.state ?? 'planned'}`)

/** What was said of sky and weather: values that were entered, clouds that were told, and the host's words. */
export function skyPart(ground: ReportGround): ReportPart {
  const { words, report } = ground
  const { facts, edits, night } = report
  const clouds = facts.clouds.map(({ at, shut }) =>
    words.say(shut.length === 0 ? 'report.clouds-gone' : 'report.clouds', {
      time: clockText(ground, at),
      parts: words.list(shut.map((part) => partText(words, part))),
    }),
  )
  const lines = [edits.sky, edits.weather, ...weatherLines(ground), ...clouds].filter((line) => line !== '')
  return {
    label: words.say('report.sky'),
    lines: lines.length > 0 ? lines : [words.say('report.no-sky', { place: night.site.name })],
  }
}

/** So many moments at which weather was entered are told, the last ones. */
const MOST_MOMENTS = 6

function weatherLines({ words, report }: ReportGround): string[] {
  const { zone } = report.night.site
  const times = [...new Set(report.go.readings.map(({ enteredAt }) => enteredAt.getTime()))].slice(0, MOST_MOMENTS)
  return times.toReversed().map((time) => {
    const at = new Date(time)
    const entered = report.go.readings.filter(({ enteredAt }) => enteredAt.getTime() === time).toReversed()
    const said = (reading: GoReading) =>
      words.say('go.value', { name: kindText(words, reading.kind), value: valueText(words, reading) })
    const isSameDay = calendarDate(at, zone) === report.night.date
    const when = { time: words.time(at, zone), date: isSameDay ? '' : words.dayAndMonth(at, zone) }
    return words.say(isSameDay ? 'report.weather' : 'report.weather-of', {
      ...when,
      values: words.list(entered.map(said)),
    })
  })
}

/** What was left out, where, and why. */
export function skippedPart(ground: ReportGround): ReportPart {
  const { words, names, report } = ground
  const lines = report.facts.skipped.map(({ stationId, targetKey, why, at }) =>
    words.say('report.skip', {
      time: clockText(ground, at),
      target: names.nameOf(targetKey),
      station: stationId === null ? MISSING : stationText(ground, stationId),
      why: words.say(`report.why-${why}`),
    }),
  )
  return { label: words.say('report.skipped'), lines: lines.length > 0 ? lines : [words.say('report.nothing-skipped')] }
}

/** Who helped; the names of people are for the host alone. */
export function helpersPart({ words, report, mayHost }: ReportGround): ReportPart {
  const { facts, edits, night } = report
  const operators = [...new Set(night.stations.map(({ operator }) => operator).filter((name) => name !== ''))]
  const acted = facts.acted.map(({ by, acts }) => words.say('report.acted', { by, count: acts }))
  const named = [
    ...(operators.length > 0 ? [words.say('report.operators', { names: words.list(operators) })] : []),
    ...(acted.length > 0 ? [words.say('report.acted-all', { list: words.list(acted) })] : []),
    ...(edits.helpers === '' ? [] : [edits.helpers]),
  ]
  const counted = words.say('report.helpers-count', { count: operators.length, stations: night.stations.length })
  return { label: words.say('report.helpers'), lines: mayHost && named.length > 0 ? named : [counted] }
}

export const improvePart = ({ words, report }: ReportGround): ReportPart => ({
  label: words.say('report.improve'),
  lines: report.edits.improve === '' ? [words.say('report.no-improve')] : report.edits.improve.split(/\r?\n/),
})
