import { type BesideStation, besideStations } from '../../tours/beside.ts'
import type { BesideHalf } from '../../tours/beside-lines.ts'
import type { Night } from '../../tours/night.ts'
import type { Words } from '../../words/words.ts'
import { type BesideThing, besideThings } from './beside-things.ts'
import { type Names, remarkText } from './say.ts'
import type { Viewer } from './sheet.ts'

/** A half hour of such a station. */
export interface BesideRow {
  readonly time: string
  readonly things: readonly BesideThing[]
  readonly note: string | null
}

interface BesideGroup {
  readonly heading: string
  readonly note: string
  readonly rows: readonly BesideRow[]
}

/** The part of the programme's page for them; `later` stands for their rows while these are worked out. */
export interface BesidePart {
  readonly title: string
  readonly groups: readonly BesideGroup[]
  readonly later: string | null
}

interface BesideSubject {
  readonly night: Night
  readonly names: Names
  /** Null while it is worked out. */
  readonly beside: readonly BesideHalf[] | null
}

/** What the stations that are no telescope show; null for a row of telescopes. */
export function besidePart({ words }: Viewer, subject: BesideSubject): BesidePart | null {
  const { night, beside } = subject
  const stations = besideStations(night)
  if (stations.length === 0) return null
  return {
    title: words.say('beside.title'),
    groups: stations.map((station) => ({
      heading: station.name,
      note: [stationKindText(words, station), station.operator].filter(Boolean).join(', '),
      rows: besideRows(words, subject, station),
    })),
    later: beside === null ? words.say('beside.later') : null,
  }
}

/** What a station is, for one that is no telescope. */
export const stationKindText = (words: Words, { kind }: BesideStation): string => words.say(`station.${kind}`)

/** What one station shows, by half hour. */
export const besideRows = (
  words: Words,
  { night, names, beside }: BesideSubject,
  station: BesideStation,
): readonly BesideRow[] =>
  (beside ?? [])
    .filter(({ stationId }) => stationId === station.id)
    .map((half) => ({
      time: words.time(half.fromAt, night.site.zone),
      things: besideThings({ words, night, names }, half),
      note: half.note && remarkText(words, half.note),
    }))

/** What a station shows all evening in one line, for a page that has little room. */
export interface BesideShort {
  readonly station: string
  readonly text: string
}

/** Every station that is no telescope with the first thing that it shows in each half hour. */
export const besideShort = (words: Words, subject: BesideSubject): readonly BesideShort[] =>
  besideStations(subject.night).map((station) => ({
    station: words.say('beside.short-station', { station: station.name }),
    text: station.kind === 'questions' ? words.say('beside.run-questions') : firstNames(words, subject, station),
  }))

function firstNames(words: Words, { names, beside }: BesideSubject, { id }: BesideStation): string {
  const halves = (beside ?? []).filter(({ stationId }) => stationId === id)
  const firsts = halves.map((half) => keysOf(half).map(names.nameOf)[0] ?? words.say('beside.short-nothing'))
  return words.say('beside.short', { names: firsts.join(', ') })
}

/** What it shows in a half hour without what passes over. */
const keysOf = ({ lines }: BesideHalf): readonly string[] =>
  lines.flatMap((line) => (line.what === 'sight' || line.what === 'picture' ? [line.targetKey] : []))

/** What a station that is no telescope shows at an instant; null for a telescope and where nothing is known. */
export function besideNow(
  words: Words,
  names: Names,
  beside: readonly BesideHalf[],
  stationId: string,
  at: Date,
): string | null {
  const half = beside.find((it) => it.stationId === stationId && it.fromAt <= at && at < it.toAt)
  if (half === undefined) return null
  if (half.kind === 'questions') return words.say('beside.answers')
  const keys = keysOf(half)
  return keys.length === 0 ? null : words.list(keys.map(names.nameOf))
}
