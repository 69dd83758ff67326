import type { EveningAnswer } from '../../desk/desk.ts'
import { linesOf } from '../../drawings/letter-widths.ts'
import type { BesideHalf } from '../../tours/beside-lines.ts'
import { byTimeAndRow } from '../../tours/first-showing.ts'
import { nightHours } from '../../tours/hours.ts'
import type { Night } from '../../tours/night.ts'
import { schoolClassOf } from '../../tours/school-class.ts'
import type { Tour } from '../../tours/tour.ts'
import { type BesideShort, besideShort } from './beside.ts'
import { clockText } from './clock-text.ts'
import { type DuskTimes, duskTimes } from './dusk.ts'
import {
  type EmergencyLine,
  emergencyLines,
  type FixedCall,
  fixedCalls,
  type SafetyRule,
  safetyRules,
} from './fixed-words.ts'
import { moonText } from './moon.ts'
import type { PaperLook } from './paper.ts'
import { staleText, versionText } from './paper-frame.ts'
import { type Names, noStopsText, targetName } from './say.ts'
import type { Viewer } from './sheet.ts'
import { endText, stationName } from './stop-line.ts'

interface RunLine {
  readonly station: string
  readonly name: string
  readonly until: string
}

export interface RunSheet extends DuskTimes {
  readonly title: string
  readonly subtitle: string
  readonly version: string
  /** That the night was changed after this programme was built; null when all still holds. */
  readonly stale: string | null
  readonly hours: string
  readonly moon: string
  /** That the clocks change in the night; null on most. */
  readonly clocks: string | null
  /** When a class has the row and when its groups change; null on a night without one. */
  readonly schoolClass: string | null
  readonly timeLabel: string
  readonly stationLabel: string
  readonly showLabel: string
  readonly untilLabel: string
  readonly moves: readonly { readonly time: string; readonly lines: readonly RunLine[] }[]
  readonly emptyText: string
  readonly besideLabel: string
  /** The stations that are no telescope, with what they show by half hour. */
  readonly beside: readonly BesideShort[]
  /** True when the evening has so many moves that the lines must stand closer to stay on one page. */
  readonly isDense: boolean
  readonly safetyLabel: string
  readonly safety: readonly SafetyRule[]
  readonly callsLabel: string
  readonly calls: readonly FixedCall[]
  readonly emergencyLabel: string
  readonly emergency: readonly EmergencyLine[]
}

interface RunSheetSubject {
  readonly night: Night
  readonly evening: EveningAnswer
  readonly tour: Tour
  readonly isStale: boolean
  readonly names: Names
  readonly beside: readonly BesideHalf[]
  readonly look: Pick<PaperLook, 'paper'>
}

/** So many lines stand on a page in the larger letters; A4 holds one more, or what is out of the usual, or safety in long words. */
const ROOMY_LINES = 7
/** The width of a page in type sizes, a little more, since widths of letters are rounded up. */
const LINE_EM = 46

/** The coordinator's one page: the evening by time, safety, the four fixed calls and the emergency card. */
export function runSheet(viewer: Viewer, subject: RunSheetSubject): RunSheet {
  const { words } = viewer
  const { night, evening, tour, names } = subject
  const { opensAt, closesAt } = nightHours(night)
  const beside = besideShort(words, subject)
  const hours = { from: words.time(opensAt, night.site.zone), to: words.time(closesAt, night.site.zone) }
  const dusks = duskTimes(words, evening, night)
  const unusual = {
    stale: staleText(viewer, subject.isStale),
    clocks: clockText(words, night),
    schoolClass: classText(viewer, night),
  }
  const isUsual = [...Object.values(unusual), dusks.noDark].every((text) => text === null)
  const safety = safetyRules(words)
  const isShort = isUsual && safety.every(({ name, text }) => linesOf(`${name} ${text}`, LINE_EM).length === 1)
  const mostLines = ROOMY_LINES + (isShort && subject.look.paper === 'a4' ? 1 : 0)
  return {
    ...labels(viewer),
    ...unusual,
    title: night.title,
    subtitle: words.say('print.where-when', { place: night.site.name, date: words.date(night.date) }),
    version: versionText(viewer, night, tour),
    hours: words.say('print.hours', hours),
    ...dusks,
    moon: moonText(words, evening),
    moves: runMoves(viewer, night, tour, names),
    emptyText: noStopsText(words, tour),
    besideLabel: words.say('beside.title-short', { time: hours.from }),
    beside,
    isDense: tour.stops.length + 2 * beside.length > mostLines,
    safety,
    calls: fixedCalls(words),
    emergency: emergencyLines(words, night),
  }
}

const labels = ({ words }: Viewer) => ({
  timeLabel: words.say('print.time'),
  stationLabel: words.say('page.station'),
  showLabel: words.say('print.show'),
  untilLabel: words.say('print.until'),
  safetyLabel: words.say('print.safety'),
  callsLabel: words.say('print.calls'),
  emergencyLabel: words.say('print.emergency'),
})

function classText({ words }: Viewer, night: Night): string | null {
  const found = schoolClassOf(night)
  if (found === null) return null
  const time = (at: Date): string => words.time(at, night.site.zone)
  const values = { from: time(found.startsAt), to: time(found.endsAt), groups: found.groups }
  if (found.bells.length === 0) return words.say('print.class', values)
  return words.say('print.class-groups', { ...values, bells: words.list(found.bells.map(time)) })
}

/** An evening by time: what begins when, where, and until when. */
export function runMoves({ words }: Viewer, night: Night, tour: Pick<Tour, 'stops'>, names: Names): RunSheet['moves'] {
  const { zone } = night.site
  const stops = tour.stops.toSorted(byTimeAndRow(night))
  const starts = [...new Set(stops.map(({ startsAt }) => startsAt.getTime()))]
  return starts.map((start) => ({
    time: words.time(new Date(start), zone),
    lines: stops
      .filter(({ startsAt }) => startsAt.getTime() === start)
      .map((stop) => ({
        station: stationName(night, names, stop.stationId),
        name: targetName(words, names, stop.targetKey, stop.aim),
        until: endText(words, night, stop),
      })),
  }))
}
