import { nightHours } from '../../tours/hours.ts'
import type { Night } from '../../tours/night.ts'
import { type SchoolClass, schoolClassOf } from '../../tours/school-class.ts'
import { type DuskTime, duskTimes } from './dusk.ts'
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
export interface ClassRounds {
  readonly title: string
  readonly timeLabel: string
  readonly groups: readonly string[]
  /** At which station of the row each group is, by its number. */
  readonly rounds: readonly { readonly time: string; readonly places: readonly string[] }[]
  readonly stations: string
}

export interface TeacherSheet {
  readonly title: string
  readonly subtitle: string
  readonly version: string
  readonly stale: string | null
  readonly facts: readonly TeacherLine[]
  readonly dusks: readonly DuskTime[]
  readonly moon: string
  /** Null on a night without a class, with one that stays together, or with one station. */
  readonly rounds: ClassRounds | null
  /** True where so many groups change that their table has a page of its own. */
  readonly isRoundsApart: boolean
  readonly bringLabel: string
  readonly bring: readonly string[]
  readonly cloudLabel: string
  readonly cloud: readonly { readonly time: string; readonly text: string }[]
  readonly settleLabel: string
  readonly settle: readonly TeacherLine[]
}

const BRING = ['clothes', 'lamps', 'adults', 'names', 'glasses'] as const
/** Minutes at which each part of the programme for cloud begins and ends. */
const CLOUD = [
  [0, 5, 'welcome'],
  [5, 15, 'chart'],
  [15, 30, 'telescope'],
  [30, 40, 'questions'],
  [40, 45, 'home'],
] as const
const GROUPS_BESIDE = 4
const SETTLE = ['decides', 'photos', 'toilets', 'bus', 'warm', 'needs', 'phone'] as const

/** What a teacher needs before the visit: what is known stands there, the rest is agreed and written in. */
export function teacherSheet(viewer: Viewer, { night, tour, evening, isStale }: PrintSubject): TeacherSheet {
  const { words } = viewer
  const found = schoolClassOf(night)
  return {
    title: words.say('teacher.title'),
    subtitle: words.say('print.where-when', { place: night.site.name, date: words.date(night.date) }),
    version: versionText(viewer, night, tour),
    stale: staleText(viewer, isStale),
    facts: facts(viewer, night, found),
    dusks: duskTimes(words, evening, night.date),
    moon: moonText(words, evening),
    rounds: found && rounds(viewer, night, found),
    isRoundsApart: (found?.groups ?? 0) > GROUPS_BESIDE,
    bringLabel: words.say('teacher.bring'),
    bring: BRING.map((key) => words.say(`teacher.bring-${key}`)),
    cloudLabel: words.say('teacher.cloud'),
    cloud: CLOUD.map(([from, to, key]) => ({
      time: words.say('teacher.minutes', { from, to }),
      text: words.say(`teacher.cloud-${key}`),
    })),
    settleLabel: words.say('teacher.settle'),
    settle: SETTLE.map((key) => ({ label: words.say(`teacher.${key}`), value: null })),
  }
}

function facts({ words }: Viewer, night: Night, found: SchoolClass | null): readonly TeacherLine[] {
  const time = (at: Date): string => words.time(at, night.site.zone)
  const { opensAt, closesAt } = nightHours(night)
  const span = (from: Date, to: Date): string => words.say('page.from-to', { from: time(from), to: time(to) })
  return [
    { label: words.say('teacher.class'), value: found && span(found.startsAt, found.endsAt) },
    { label: words.say('teacher.groups'), value: found && words.number(found.groups) },
    { label: words.say('teacher.public'), value: span(opensAt, closesAt) },
    { label: words.say('teacher.meet'), value: null },
  ]
}

/** Every group goes on to the next station of the row at each bell. */
function rounds({ words }: Viewer, { site, stations }: Night, found: SchoolClass): ClassRounds | null {
  const { groups, startsAt, bells } = found
  if (groups < 2 || stations.length < 2) return null
  const numbers = Array.from({ length: groups }, (_, group) => group)
  return {
    title: words.say('teacher.rounds'),
    timeLabel: words.say('teacher.time-group'),
    groups: numbers.map((group) => words.number(group + 1)),
    rounds: [startsAt, ...bells].map((at, round) => ({
      time: words.time(at, site.zone),
      places: numbers.map((group) => words.number(1 + ((group + round) % stations.length))),
    })),
    stations: words.say('teacher.stations', {
      list: words.list(stations.map(({ name }, k) => words.say('teacher.station', { number: k + 1, name }))),
    }),
  }
}
