import type { Static } from 'typebox'
import type { NightReport } from '../../desk/reports.ts'
import { nightHours, wallClock } from '../../tours/hours.ts'
import { hoursRun, lacksOf, volunteerTime } from '../../tours/report-edits.ts'
import { estimateText, type ReportGround, reportNumbers, stationText } from '../pages/report-words.ts'
import type { ReportAnswer } from './report-schema.ts'

type Answer = Static<typeof ReportAnswer>

const iso = (at: Date): string => at.toISOString()
const spanJson = ({ fromAt, toAt }: { readonly fromAt: Date; readonly toAt: Date }) => ({
  fromAt: iso(fromAt),
  toAt: iso(toAt),
})

/** The report of a night as data; what names people is null for whoever is not the host. */
export function reportJson(ground: ReportGround): Answer {
  const { report, mayHost } = ground
  const { night, facts, edits, closedAt } = report
  return {
    schema: 'duskrow-report-1',
    nightId: night.id,
    title: night.title,
    date: night.date,
    zone: night.site.zone,
    place: night.site.name,
    state: night.state,
    madeAt: iso(facts.at),
    isOver: facts.isOver,
    closedAt: closedAt && iso(closedAt),
    lacks: [...lacksOf(facts, edits)],
    ...whenJson(report),
    ...rowJson(ground),
    ...peopleJson(ground),
    ...skyJson(ground),
    ...shownJson(ground),
    volunteers: volunteerTime(night, facts, edits),
    words: {
      sky: edits.sky,
      weather: edits.weather,
      helpers: mayHost ? edits.helpers : null,
      improve: mayHost ? edits.improve : null,
    },
  }
}

function whenJson({ night, facts, edits, go }: NightReport): Pick<Answer, 'planned' | 'ran' | 'decision'> {
  const { opensAt, closesAt } = nightHours(night)
  const [decision] = go.decisions
  const isPutRight = edits.ranFrom !== undefined || edits.ranTo !== undefined
  const host = isPutRight ? hoursRun(night, facts, edits) : null
  return {
    planned: spanJson({ fromAt: opensAt, toAt: closesAt }),
    ran: { reckoned: facts.ran && spanJson(facts.ran), host: host && spanJson(host) },
    decision: decision
      ? { state: decision.state, proposed: decision.proposed, decidedAt: iso(decision.decidedAt) }
      : null,
  }
}

function rowJson({ report, mayHost }: ReportGround): Pick<Answer, 'stations' | 'acted'> {
  const { looksByStation, acted } = report.facts
  const looksOf = (id: string): number => looksByStation.find(({ stationId }) => stationId === id)?.looks ?? 0
  return {
    stations: report.stations
      .filter(({ id }) => report.night.stations.some((station) => station.id === id) || looksOf(id) > 0)
      .map(({ id, name, kind, telescope, operator }) => ({
        ...{ stationId: id, name, kind, telescope: telescope?.name ?? null },
        operator: mayHost ? operator : null,
        looks: looksOf(id),
      })),
    acted: mayHost ? acted.map((one) => ({ ...one })) : null,
  }
}

function peopleJson(ground: ReportGround): Pick<Answer, 'numbers' | 'people' | 'estimate'> {
  const { report } = ground
  const { people, estimate } = report.facts
  return {
    numbers: Object.fromEntries(reportNumbers(report).map(({ key, reckoned, host }) => [key, { reckoned, host }])),
    people: { ...people, peak: people.peak && { ...people.peak, at: iso(people.peak.at) } },
    estimate: estimate && { ...estimate, message: estimateText(ground) },
  }
}

const skyJson = ({ report }: ReportGround): Pick<Answer, 'clouds' | 'weather'> => ({
  clouds: report.facts.clouds.map(({ at, shut, minutes }) => ({ at: iso(at), shut: [...shut], minutes })),
  weather: report.go.readings.map(({ kind, value, enteredAt }) => ({ kind, value, enteredAt: iso(enteredAt) })),
})

type Shown = 'looks' | 'showings' | 'looksByTarget' | 'halfHours' | 'seen' | 'skipped'
function shownJson(ground: ReportGround): Pick<Answer, Shown> {
  const { report, names } = ground
  const { facts, night } = report
  const named = <Thing extends { readonly targetKey: string }>(thing: Thing) => ({
    ...thing,
    targetName: names.nameOf(thing.targetKey),
  })
  return {
    looks: facts.looks,
    showings: facts.showings.map(({ stop: _stop, by, fromAt, toAt, ...showing }) => ({
      ...named(showing),
      ...spanJson({ fromAt, toAt }),
      stationName: stationText(ground, showing.stationId),
      looksBy: by,
    })),
    looksByTarget: facts.looksByTarget.map(named),
    halfHours: facts.halfHours.map(({ at, ...half }) => ({
      ...half,
      at: iso(at),
      atWall: wallClock(at, night.site.zone),
      waits: (facts.waits.find((wait) => wait.at.getTime() === at.getTime())?.stations ?? []).map((wait) => ({
        ...wait,
        waitMin: Math.round(wait.waitMin * 10) / 10,
      })),
    })),
    seen: facts.seen.map(named),
    skipped: facts.skipped.map((skip) => ({ ...named(skip), at: iso(skip.at) })),
  }
}
