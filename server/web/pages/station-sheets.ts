import { isBeside } from '../../tours/beside.ts'
import type { BesideHalf } from '../../tours/beside-lines.ts'
import type { Check, CheckLine } from '../../tours/check.ts'
import type { Night, Station } from '../../tours/night.ts'
import type { Stop, Tour } from '../../tours/tour.ts'
import { type BesideRow, besideRows, stationKindText } from './beside.ts'
import { fixedCalls } from './fixed-words.ts'
import { staleText, versionText } from './paper-frame.ts'
import { type SpareLine, spareLine } from './programme.ts'
import { directionText, type Names, noStopsText } from './say.ts'
import type { Viewer } from './sheet.ts'
import { type StopLine, stopLine } from './stop-line.ts'

interface SheetStop extends StopLine {
  readonly direction: string | null
  readonly eyepieceHeight: string | null
  readonly see: string | null
}

export interface StationSheet {
  readonly station: string
  readonly telescope: string | null
  readonly operator: string
  readonly stops: readonly SheetStop[]
  readonly spares: readonly SpareLine[]
  /** By half hour, at a station that is no telescope. */
  readonly halves: readonly BesideRow[]
  /** True when it has room for larger letters. */
  readonly isRoomy: boolean
  readonly isEmpty: boolean
}

interface StationSheets {
  readonly version: string
  /** That the night was changed after this programme was built; null when all still holds. */
  readonly stale: string | null
  readonly sheets: readonly StationSheet[]
  readonly sparesLabel: string
  readonly callsLabel: string
  readonly calls: readonly string[]
  readonly emptyText: string
}

interface SheetsSubject {
  readonly night: Night
  readonly tour: Tour
  readonly isStale: boolean
  readonly checks: readonly Check[]
  readonly beside: readonly BesideHalf[]
  readonly names: Names
}

const SPARES_SHOWN = 4

/** One sheet for each station of the row, to be read under a red lamp. */
export function stationSheets(viewer: Viewer, subject: SheetsSubject): StationSheets {
  const { words } = viewer
  const { night, tour } = subject
  return {
    version: versionText(viewer, night, tour),
    stale: staleText(viewer, subject.isStale),
    sheets: night.stations.map((station) => stationSheet(viewer, subject, station)),
    sparesLabel: words.say('print.spares'),
    callsLabel: words.say('print.calls'),
    calls: fixedCalls(words).map(({ call }) => call),
    emptyText: noStopsText(words, tour),
  }
}

/** So many stops fill less than a sheet in larger letters too. */
const MOST_ROOMY = 2

function stationSheet(viewer: Viewer, subject: SheetsSubject, station: Station): StationSheet {
  const { night, tour, checks, names } = subject
  const stops = tour.stops
    .filter(({ stationId }) => stationId === station.id)
    .sort((a, b) => a.startsAt.getTime() - b.startsAt.getTime())
  const halves = isBeside(station) ? besideRows(viewer.words, subject, station) : []
  const spares = tour.spares.filter(({ stationId }) => stationId === station.id).slice(0, SPARES_SHOWN)
  return {
    station: station.name,
    telescope: isBeside(station) ? stationKindText(viewer.words, station) : (station.telescope?.name ?? null),
    operator: station.operator || viewer.words.say('print.operator-blank'),
    stops: stops.map((stop) => sheetStop(viewer, night, stop, checks, names)),
    spares: spares.map((spare) => spareLine(viewer, night, spare, names)),
    halves,
    isRoomy: halves.length === 0 && stops.length <= MOST_ROOMY,
    isEmpty: stops.length === 0 && halves.length === 0,
  }
}

function sheetStop(viewer: Viewer, night: Night, stop: Stop, checks: readonly Check[], names: Names): SheetStop {
  const { words } = viewer
  const line = lineAtStart(stop, checks)
  const height = line?.eyepieceHeightCm ?? null
  return {
    ...stopLine(viewer, night, stop, names),
    direction: line ? directionText(words, line) : null,
    eyepieceHeight:
      height === null ? null : words.say('print.eye-height', { height: words.length(height, 'centimeter') }),
    see: names.story(stop.targetKey)?.see ?? null,
  }
}

/** The line of the check nearest to the start of a stop, at its own station. */
function lineAtStart(stop: Stop, checks: readonly Check[]): CheckLine | undefined {
  const away = (check: Check) => Math.abs(check.at.getTime() - stop.startsAt.getTime())
  const isSame = (line: CheckLine) =>
    line.stationId === stop.stationId && line.targetKey === stop.targetKey && line.aim === stop.aim
  const nearest = checks.filter(({ lines }) => lines.some(isSame)).sort((a, b) => away(a) - away(b))[0]
  return nearest?.lines.find(isSame)
}
