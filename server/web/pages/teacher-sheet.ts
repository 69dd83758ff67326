import { lineEm, linesOf } from '../../drawings/letter-widths.ts'
import { CLOUD_BLOCKS } from '../../tours/class-cloud.ts'
import { classPlan } from '../../tours/class-rounds.ts'
import type { ClassVisit } from '../../tours/class-visit.ts'
import { nightHours } from '../../tours/hours.ts'
import { type SchoolClass, schoolClassOf } from '../../tours/school-class.ts'
import { type DuskTimes, duskTimes } from './dusk.ts'
import { moonText } from './moon.ts'
import { staleText, versionText } from './paper-frame.ts'
import type { PrintSubject } from './papers.ts'
import type { Viewer } from './sheet.ts'

/** A fact of the visit; `value` is null where it is to be filled in by hand. */
export interface TeacherLine {
  readonly label: string
  readonly value: string | null
}

/** Who is where: a row for each round between two bells. */
interface ClassRounds {
  readonly title: string
  readonly timeLabel: string
  readonly groups: readonly string[]
  /** At which station of the row each group is, by its number. */
  readonly rounds: readonly { readonly time: string; readonly places: readonly string[] }[]
  readonly stations: string
  /** That nothing moves inside a round, and which two stations every group sees. */
  readonly rule: string
}

interface TeacherSheet extends DuskTimes {
  readonly title: string
  readonly subtitle: string
  readonly version: string
  readonly stale: string | null
  readonly facts: readonly TeacherLine[]
  readonly moon: string
  /** Null on a night without a class, with one that stays together, or with one station. */
  readonly rounds: ClassRounds | null
  /** True where so many groups change, or so much is agreed, that their table has a page of its own. */
  readonly isRoundsApart: boolean
  readonly bringLabel: string
  readonly bring: readonly string[]
  readonly cloudLabel: string
  readonly cloud: readonly { readonly time: string; readonly text: string }[]
  readonly settleLabel: string
  readonly settle: readonly TeacherLine[]
}

const BRING = ['clothes', 'lamps', 'adults', 'names', 'glasses'] as const
const GROUPS_BESIDE = 4
/** Width of a line and of one beside another, and the room between label and value, in type sizes. */
const LINE_EM = { whole: 44, half: 21, gap: 1 }

/** What a teacher needs before the visit: what is known stands there, the rest is agreed and written in. */
export function teacherSheet(viewer: Viewer, subject: PrintSubject): TeacherSheet {
  const { words } = viewer
  const { night, tour, evening, isStale, visit } = subject
  const found = schoolClassOf(night)
  const known = facts(viewer, subject, found)
  const agreed = settle(viewer, subject)
  return {
    title: words.say('teacher.title'),
    subtitle: words.say('print.where-when', { place: night.site.name, date: words.date(night.date) }),
    version: versionText(viewer, night, tour),
    stale: staleText(viewer, isStale),
    facts: known,
    ...duskTimes(words, evening, night),
    moon: moonText(words, evening),
    rounds: found && rounds(viewer, subject, found),
    isRoundsApart: (found?.groups ?? 0) + wrapped(known, LINE_EM.half) + wrapped(agreed, LINE_EM.whole) > GROUPS_BESIDE,
    bringLabel: words.say('teacher.bring'),
    bring: BRING.map((key) => words.say(`teacher.bring-${key}`, { count: visit.adultsPerGroup ?? 1 })),
    cloudLabel: words.say('teacher.cloud'),
    cloud: CLOUD_BLOCKS.map(({ key, fromMin, toMin }) => ({
      time: words.say('teacher.minutes', { from: fromMin, to: toMin }),
      text: words.say(`teacher.cloud-${key}`),
    })),
    settleLabel: words.say('teacher.settle'),
    settle: agreed,
  }
}

/** How many lines more than one each the values take; so much less room is left for a row of the table. */
const wrapped = (lines: readonly TeacherLine[], roomEm: number): number =>
  lines.reduce((sum, { label, value }) => {
    if (value === null) return sum
    return sum + linesOf(value, Math.max(1, roomEm - lineEm(label, true) - LINE_EM.gap)).length - 1
  }, 0)

function facts({ words }: Viewer, { night, visit }: PrintSubject, found: SchoolClass | null): readonly TeacherLine[] {
  const time = (at: Date): string => words.time(at, night.site.zone)
  const { opensAt, closesAt } = nightHours(night)
  const span = (from: Date, to: Date): string => words.say('page.from-to', { from: time(from), to: time(to) })
  return [
    { label: words.say('teacher.class'), value: found && span(found.startsAt, found.endsAt) },
    { label: words.say('teacher.groups'), value: found && words.number(found.groups) },
    { label: words.say('teacher.public'), value: span(opensAt, closesAt) },
    { label: words.say('teacher.meet'), value: visit.meet || null },
  ]
}

/** What is agreed with the school; a line for a pen where it is not. */
function settle({ words }: Viewer, { visit, siteNotes }: PrintSubject): readonly TeacherLine[] {
  const { decides, decidesBy, announced, toilets, fetch, warm, needs }: ClassVisit = visit
  const values = {
    decides: [decides, decidesBy, announced].filter((part) => part !== '').join(', '),
    photos: '',
    toilets: toilets || siteNotes.toilets,
    bus: fetch,
    warm,
    needs,
    phone: '',
  }
  return Object.entries(values).map(([key, value]) => ({ label: words.say(`teacher.${key}`), value: value || null }))
}

/** Every group goes on at each bell, and stands once at each of the best stations. */
function rounds({ words }: Viewer, { night, tour }: PrintSubject, found: SchoolClass): ClassRounds | null {
  const { site, stations } = night
  const { groups, startsAt, bells } = found
  if (groups < 2 || stations.length < 2) return null
  const plan = classPlan(found, stations, tour.stops)
  const bestNames = plan.best.map((at) => stations[at]?.name ?? '')
  return {
    title: words.say('teacher.rounds'),
    timeLabel: words.say('teacher.time-group'),
    groups: Array.from({ length: groups }, (_, group) => words.number(group + 1)),
    rounds: [startsAt, ...bells].map((at, round) => ({
      time: words.time(at, site.zone),
      places: (plan.rounds[round] ?? []).map((station) => words.number(station + 1)),
    })),
    stations: words.say('teacher.stations', {
      list: words.list(stations.map(({ name }, k) => words.say('teacher.station', { number: k + 1, name }))),
    }),
    rule: [
      words.say('teacher.round-still'),
      ...(bestNames.length === 0 ? [] : [words.say('teacher.round-best', { list: words.list(bestNames) })]),
    ].join(' '),
  }
}
