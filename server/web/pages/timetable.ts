import { quarterHours, wallClock } from '../../tours/hours.ts'
import type { Night, Station } from '../../tours/night.ts'
import type { Stop, Tour } from '../../tours/tour.ts'
import { leaveByText, type Names, targetName } from './say.ts'
import type { Viewer } from './sheet.ts'
import { rowNames } from './telescope-names.ts'

interface TimetableHead {
  readonly time: string
  readonly span: number
  readonly isNow: boolean
}

interface TimetableCell {
  readonly span: number
  readonly isNow: boolean
  readonly isPast: boolean
  readonly isEmpty: boolean
  readonly name: string
  readonly when: string
  readonly until: string | null
}

interface TimetableRow {
  readonly station: string
  readonly telescope: string | null
  readonly operator: string | null
  readonly href: string
  readonly cells: readonly TimetableCell[]
}

/** The programme of the row as a table: a row for each station, a column for each quarter hour. */
export interface Timetable {
  readonly caption: string
  readonly stationLabel: string
  readonly nowText: string
  readonly heads: readonly TimetableHead[]
  readonly rows: readonly TimetableRow[]
}

/** The programme of a night as a time table in the hours of the site, with the present quarter marked. */
export function timetable(viewer: Viewer, night: Night, tour: Pick<Tour, 'stops'>, names: Names): Timetable {
  const borders = quarterHours(night)
  const nameIn = rowNames(viewer, night)
  return {
    caption: viewer.words.say('page.timetable'),
    stationLabel: viewer.words.say('page.station'),
    nowText: viewer.words.say('page.now'),
    heads: heads(viewer, night, borders),
    rows: night.stations.map((station) => ({
      station: station.name,
      telescope: station.telescope && nameIn(station.telescope),
      operator: station.operator || null,
      href: `/field/${night.id}/${station.id}`,
      cells: cells(viewer, night, tour, station, borders, names),
    })),
  }
}

function heads({ words, now }: Viewer, night: Night, borders: readonly Date[]): TimetableHead[] {
  const starts = borders.slice(0, -1)
  const isHalf = (at: Date) => /:[03]0$/.test(wallClock(at, night.site.zone))
  const found: { at: Date; span: number }[] = []
  for (const at of starts) {
    const last = found.at(-1)
    if (last && !isHalf(at)) last.span++
    else found.push({ at, span: 1 })
  }
  return found.map(({ at, span }, index) => {
    const endsAt = found[index + 1]?.at ?? borders.at(-1) ?? at
    return { time: words.time(at, night.site.zone), span, isNow: at <= now && now < endsAt }
  })
}

function cells(
  viewer: Viewer,
  night: Night,
  tour: Pick<Tour, 'stops'>,
  station: Station,
  borders: readonly Date[],
  names: Names,
): TimetableCell[] {
  const stops = tour.stops
    .filter((stop) => stop.stationId === station.id)
    .sort((a, b) => a.startsAt.getTime() - b.startsAt.getTime())
  const found: TimetableCell[] = []
  let column = 0
  for (const stop of stops) {
    const from = Math.max(column, columnOf(borders, stop.startsAt))
    const to = Math.max(from + 1, columnOf(borders, stop.endsAt))
    if (from > column) found.push(emptyCell(from - column))
    found.push(stopCell(viewer, night, stop, to - from, names))
    column = to
  }
  const columns = borders.length - 1
  return column < columns ? [...found, emptyCell(columns - column)] : found
}

/** The column whose left border is nearest below the instant. */
const columnOf = (borders: readonly Date[], at: Date): number =>
  Math.max(
    0,
    borders.findLastIndex((border) => border.getTime() <= at.getTime() + 59_000),
  )

const emptyCell = (span: number): TimetableCell => ({
  span,
  isNow: false,
  isPast: false,
  isEmpty: true,
  name: '',
  when: '',
  until: null,
})

function stopCell({ words, now }: Viewer, night: Night, stop: Stop, span: number, names: Names): TimetableCell {
  const { zone } = night.site
  const when = { from: words.time(stop.startsAt, zone), to: words.time(stop.endsAt, zone) }
  return {
    span,
    isNow: stop.startsAt <= now && now < stop.endsAt,
    isPast: stop.endsAt <= now,
    isEmpty: false,
    name: targetName(words, names, stop.targetKey, stop.aim),
    when: words.say('page.from-to', when),
    until: leaveByText(words, stop, zone),
  }
}
