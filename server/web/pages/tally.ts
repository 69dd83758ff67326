import { halfHourStarts, instantOf } from '../../tours/hours.ts'
import { staleText, versionText } from './paper-frame.ts'
import type { PrintSubject } from './papers.ts'
import type { Viewer } from './sheet.ts'

/** Half hours across, with room for strokes: stations on one table, the gate on the other. */
interface TallyPage {
  readonly times: readonly string[]
  readonly stations: readonly string[]
  readonly gate: readonly string[]
  /** Who saw what, by station; [] where it stands on a page of its own. */
  readonly verdicts: readonly string[]
}

interface Tally {
  readonly title: string
  readonly subtitle: string
  readonly how: string
  readonly version: string
  readonly stale: string | null
  readonly looksLabel: string
  readonly gateLabel: string
  readonly seenLabel: string
  readonly answers: readonly string[]
  readonly pages: readonly TallyPage[]
  /** True where so many stations share a page that their rows must be lower. */
  readonly isDense: boolean
}

const HALF_HOURS_A_PAGE = 8
const STATIONS_FOR_ONE_PAGE = 4
const ROOMY_STATIONS = 8
const GATE = ['adults-in', 'adults-out', 'children-in', 'children-out'] as const
const ANSWERS = ['seen', 'half', 'not'] as const

/** Strokes in fives for an evening without a laptop: looks by station and half hour, the gate, and who saw it. */
export function tally(viewer: Viewer, subject: PrintSubject): Tally {
  const { words } = viewer
  const { night, tour, isStale } = subject
  const stations = night.stations.map(({ name }) => name)
  const gate = GATE.map((row) => words.say(`tally.${row}`))
  const times = halfHourStarts(night).map((start) => words.time(instantOf(night, start), night.site.zone))
  const counted = inParts(times).map((part) => ({ times: part, stations, gate, verdicts: [] }))
  const [only] = counted
  const isOnePage = counted.length === 1 && stations.length <= STATIONS_FOR_ONE_PAGE
  const seen: TallyPage = { times: [], stations: [], gate: [], verdicts: stations }
  return {
    title: words.say('print.tally'),
    subtitle: words.say('print.where-when', { place: night.site.name, date: words.date(night.date) }),
    how: words.say('tally.how'),
    version: versionText(viewer, night, tour),
    stale: staleText(viewer, isStale),
    looksLabel: words.say('tally.looks'),
    gateLabel: words.say('tally.gate'),
    seenLabel: words.say('tally.seen-label'),
    answers: ANSWERS.map((answer) => words.say(`tally.${answer}`)),
    pages: isOnePage && only ? [{ ...only, verdicts: stations }] : stations.length > 0 ? [...counted, seen] : counted,
    isDense: stations.length > ROOMY_STATIONS,
  }
}

/** As many columns on each page as on the others. */
function inParts(times: readonly string[]): readonly (readonly string[])[] {
  const parts = Math.max(1, Math.ceil(times.length / HALF_HOURS_A_PAGE))
  const size = Math.max(1, Math.ceil(times.length / parts))
  return Array.from({ length: parts }, (_, k) => times.slice(k * size, (k + 1) * size))
}
