import type { Check, CheckLine } from '../../tours/check.ts'
import { nightHours } from '../../tours/hours.ts'
import type { Night } from '../../tours/night.ts'
import type { Tour } from '../../tours/tour.ts'
import { halvesText, pointShort } from '../../words/directions.ts'
import { staleText, versionText } from './paper-frame.ts'
import { causeText, type Names, noStopsText, targetName } from './say.ts'
import type { Viewer } from './sheet.ts'

interface CheckCell {
  /** Compass point and fists, short; '' where it cannot be shown. */
  readonly where: string
  /** Its mark, with the minutes left, the time from which, or what is in the way. */
  readonly state: string
  readonly eye: string
  /** True when its group is another one than half an hour before. */
  readonly isChanged: boolean
}

interface CheckSheetRow {
  readonly name: string
  readonly note: string
  readonly cells: readonly CheckCell[]
}

/** One table: as many half hours as a paper is wide. */
export interface CheckTable {
  readonly times: readonly string[]
  readonly stations: readonly { readonly name: string; readonly rows: readonly CheckSheetRow[] }[]
}

export interface CheckSheet {
  readonly title: string
  readonly version: string
  readonly stale: string | null
  readonly legend: readonly string[]
  /** Beside every station, so that a part that is cut off still says its evening. */
  readonly day: string
  readonly tables: readonly CheckTable[]
  readonly emptyText: string | null
}

interface CheckSheetSubject {
  readonly night: Night
  readonly tour: Tour
  readonly isStale: boolean
  readonly checks: readonly Check[]
  readonly names: Names
}

const MOST_TIMES = 7
const LEGEND = ['good', 'going', 'coming', 'gone', 'changed', 'where'] as const

/** All half-hour checks of an evening on paper: targets down, half hours across, in marks that a red lamp and a copier leave. */
export function checkSheet(viewer: Viewer, subject: CheckSheetSubject): CheckSheet {
  const { words } = viewer
  const { night, tour, checks } = subject
  const tables = chunksOf(checks).map(({ from, to }) => tableOf(viewer, subject, from, to))
  const isEmpty = tables.every(({ stations }) => stations.length === 0)
  return {
    title: words.say('print.check-sheet'),
    version: versionText(viewer, night, tour),
    stale: staleText(viewer, subject.isStale),
    legend: LEGEND.map((part) => words.say(`print.check-${part}`)),
    day: words.dayAndMonth(nightHours(night).opensAt, night.site.zone),
    tables: isEmpty ? [] : tables,
    emptyText: isEmpty ? noStopsText(words, tour) : null,
  }
}

function chunksOf(checks: readonly Check[]): { readonly from: number; readonly to: number }[] {
  const count = Math.ceil(checks.length / MOST_TIMES)
  const each = Math.ceil(checks.length / Math.max(1, count))
  return Array.from({ length: count }, (_, k) => ({ from: k * each, to: Math.min((k + 1) * each, checks.length) }))
}

function tableOf(viewer: Viewer, subject: CheckSheetSubject, from: number, to: number): CheckTable {
  const { night, checks } = subject
  const times = checks.slice(from, to).map(({ at }) => viewer.words.time(at, night.site.zone))
  const rows = night.stations.map((station) => ({
    name: station.name,
    rows: linesAt(checks, station.id).map((line) => rowOf(viewer, subject, line, from, to)),
  }))
  return { times, stations: rows.filter((station) => station.rows.length > 0) }
}

/** What is asked about at a station, each once, the programme before the spares. */
function linesAt(checks: readonly Check[], stationId: string): CheckLine[] {
  const lines = (checks[0]?.lines ?? []).filter((line) => line.stationId === stationId)
  return lines.toSorted((a, b) => Number(a.isSpare) - Number(b.isSpare))
}

function rowOf(
  viewer: Viewer,
  { night, checks, names }: CheckSheetSubject,
  line: CheckLine,
  from: number,
  to: number,
): CheckSheetRow {
  const { words } = viewer
  const through = checks.map(({ lines }) => lines.find((other) => isSame(line, other)))
  const cells = through.slice(from, to).map((now, k) => cellOf(viewer, night, now, through[from + k - 1]))
  return {
    name: targetName(words, names, line.targetKey, line.aim),
    note: line.isSpare ? words.say('print.check-spare') : '',
    cells,
  }
}

const isSame = (a: CheckLine, b: CheckLine): boolean =>
  a.targetKey === b.targetKey && a.aim === b.aim && a.stationId === b.stationId && a.isSpare === b.isSpare

function cellOf(viewer: Viewer, night: Night, now: CheckLine | undefined, before: CheckLine | undefined): CheckCell {
  if (now === undefined) return { where: '', state: '', eye: '', isChanged: false }
  const { words } = viewer
  const canShow = now.group === 'good' || now.group === 'going'
  return {
    where: canShow ? `${pointShort(words, now.point)} ${halvesText(words, now.fists)}` : '',
    state: stateText(viewer, night, now),
    eye: canShow && now.eyepieceHeightCm !== null ? words.length(now.eyepieceHeightCm, 'centimeter') : '',
    isChanged: before !== undefined && before.group !== now.group,
  }
}

function stateText({ words }: Viewer, night: Night, { group, minutesLeft, fromAt, cause }: CheckLine): string {
  if (group === 'coming') return fromAt ? words.time(fromAt, night.site.zone) : words.say('check.later')
  if (group === 'gone') return words.say('print.check-mark-gone', { cause: cause ? causeText(words, cause) : '' })
  const mark = words.say(`print.check-mark-${group}`)
  return minutesLeft === null
    ? words.say('print.check-stays', { mark })
    : words.say('print.check-left', { mark, minutes: minutesLeft })
}
