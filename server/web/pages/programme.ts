import type { TourState } from '../../desk/desk.ts'
import { isBeside } from '../../tours/beside.ts'
import type { BesideHalf } from '../../tours/beside-lines.ts'
import type { Missing } from '../../tours/missing.ts'
import type { Night } from '../../tours/night.ts'
import type { Spare, Stop, Tour } from '../../tours/tour.ts'
import { type BesidePart, besidePart } from './beside.ts'
import { type MissingPart, missingPart } from './missing.ts'
import { nightSheet, objectHref } from './night-links.ts'
import { type ProgrammeNote, programmeNotes } from './programme-notes.ts'
import { causeText, type Names, remarkText } from './say.ts'
import { mayLead, type Sheet, type SheetLink, type Viewer } from './sheet.ts'
import { type StopActs, stopActs } from './stop-acts.ts'
import { type StopLine, stationName, stopLine } from './stop-line.ts'
import { rowNames } from './telescope-names.ts'

/** A stop with what the host may do with it; null where that is nothing. */
type ProgrammeStop = StopLine & { readonly acts: StopActs | null }

interface ProgrammeGroup {
  readonly heading: string
  readonly note: string | null
  readonly stops: readonly ProgrammeStop[]
  readonly spares: readonly SpareLine[]
  readonly isEmpty: boolean
}

export interface SpareLine {
  readonly name: string
  readonly href: string
  readonly text: string
}

export interface ProgrammePage {
  readonly sheet: Sheet
  readonly nightTitle: string
  readonly title: string
  readonly made: string | null
  readonly notes: readonly ProgrammeNote[]
  readonly byLabel: string
  readonly ways: readonly SheetLink[]
  readonly isByTime: boolean
  readonly groups: readonly ProgrammeGroup[]
  readonly notices: readonly string[]
  readonly noticesLabel: string
  readonly sparesLabel: string
  readonly emptyText: string
  readonly nothingText: string
  readonly missing: MissingPart | null
  /** The stations that are no telescope; null where the row has none. */
  readonly beside: BesidePart | null
  readonly build: { readonly action: string; readonly text: string; readonly note: string } | null
}

interface ProgrammeSubject {
  readonly night: Night
  readonly tour: Tour | undefined
  /** How that programme stands to the night; undefined without one. */
  readonly state: TourState | undefined
  readonly by: 'telescope' | 'time'
  readonly names: Names
  readonly newKey: () => string
  /** The showpieces that are not on it; null while that is worked out. */
  readonly missing: readonly Missing[] | null
  /** What stands beside the telescopes; null while that is worked out. */
  readonly beside: readonly BesideHalf[] | null
}

/** The programme by telescope or by time, with its reasons, spares and the rules that gave way. */
export function programmePage(viewer: Viewer, subject: ProgrammeSubject): ProgrammePage {
  const { words } = viewer
  const { night, tour, state, by, newKey } = subject
  const groups = !tour ? [] : by === 'time' ? byTime(viewer, subject, tour) : byTelescope(viewer, subject, tour)
  return {
    sheet: nightSheet(viewer, words.say('page.programme-of', { title: night.title }), {
      night,
      hasTour: tour !== undefined,
      here: 'programme',
    }),
    nightTitle: night.title,
    title: words.say('page.programme'),
    made: tour ? madeText(viewer, night, tour) : null,
    notes: tour && state ? programmeNotes(viewer, { night, tour, state, newKey }) : [],
    byLabel: words.say('page.programme-by'),
    ways: ways(viewer, subject),
    isByTime: by === 'time',
    groups,
    notices: (tour?.notices ?? []).map((notice) => remarkText(words, notice)),
    noticesLabel: words.say('page.notices'),
    sparesLabel: words.say('page.spares'),
    emptyText: words.say('page.no-programme'),
    nothingText: words.say('page.no-stops'),
    missing: tour ? missingPart(words, subject.missing, night.site.zone) : null,
    beside: besidePart(viewer, subject),
    build: buildForm(viewer, night, tour),
  }
}

const madeText = ({ words }: Viewer, night: Night, tour: Tour): string =>
  words.say('page.made', { version: tour.version, time: words.time(tour.madeAt, night.site.zone) })

function ways({ words }: Viewer, { night, tour, state, by }: ProgrammeSubject): SheetLink[] {
  const version = tour && !state?.isCurrent ? { version: String(tour.version) } : {}
  return (['telescope', 'time'] as const).map((way) => ({
    href: `/nights/${night.id}/programme?${new URLSearchParams({ ...version, by: way })}`,
    text: words.say(`page.by-${way}`),
    isHere: way === by,
  }))
}

function buildForm(viewer: Viewer, night: Night, tour: Tour | undefined): ProgrammePage['build'] {
  const { words } = viewer
  if (!mayLead(viewer)) return null
  return {
    action: `/nights/${night.id}/programme`,
    text: words.say(tour ? 'page.build-again' : 'page.build'),
    note: words.say(tour ? 'page.build-again-note' : 'page.build-note'),
  }
}

function byTelescope(viewer: Viewer, subject: ProgrammeSubject, tour: Tour): ProgrammeGroup[] {
  const { night, names } = subject
  const row = night.stations.filter((station) => !isBeside(station))
  const nameIn = rowNames(viewer, night)
  const standing = new Set(row.map(({ id }) => id))
  const gone = new Set(tour.stops.map(({ stationId }) => stationId).filter((id) => !standing.has(id)))
  return [
    ...row.map((station) => ({
      heading: station.name,
      note: [station.telescope && nameIn(station.telescope), station.operator].filter(Boolean).join(', ') || null,
      ...ofStation(viewer, subject, tour, station.id),
    })),
    ...[...gone].map((id) => ({
      heading: stationName(night, names, id),
      note: viewer.words.say('page.station-gone'),
      ...ofStation(viewer, subject, tour, id),
    })),
  ]
}

function ofStation(
  viewer: Viewer,
  subject: ProgrammeSubject,
  tour: Tour,
  id: string,
): Pick<ProgrammeGroup, 'stops' | 'spares' | 'isEmpty'> {
  const { night, names } = subject
  const stops = tour.stops.filter(({ stationId }) => stationId === id).sort(byStart)
  const spares = tour.spares.filter(({ stationId }) => stationId === id)
  return {
    stops: stops.map((stop) => programmeStop(viewer, subject, tour, stop)),
    spares: spares.map((spare) => spareLine(viewer, night, spare, names)),
    isEmpty: stops.length === 0,
  }
}

function byTime(viewer: Viewer, subject: ProgrammeSubject, tour: Tour): ProgrammeGroup[] {
  const { night } = subject
  const starts = [...new Set(tour.stops.map(({ startsAt }) => startsAt.getTime()))].sort((a, b) => a - b)
  return starts.map((start) => ({
    heading: viewer.words.time(new Date(start), night.site.zone),
    note: null,
    stops: tour.stops
      .filter(({ startsAt }) => startsAt.getTime() === start)
      .map((stop) => programmeStop(viewer, subject, tour, stop)),
    spares: [],
    isEmpty: false,
  }))
}

function programmeStop(viewer: Viewer, subject: ProgrammeSubject, tour: Tour, stop: Stop): ProgrammeStop {
  const acts = subject.state?.isCurrent ? stopActs(viewer, subject, tour, stop) : null
  return { ...stopLine(viewer, subject.night, stop, subject.names), acts }
}

const byStart = (a: { startsAt: Date }, b: { startsAt: Date }) => a.startsAt.getTime() - b.startsAt.getTime()

/** A spare with the hours in which it is well placed and what ends them. */
export function spareLine({ words }: Viewer, night: Night, spare: Spare, names: Names): SpareLine {
  const { zone } = night.site
  const values = {
    from: words.time(spare.fromAt, zone),
    to: words.time(spare.untilAt, zone),
    cause: causeText(words, spare.cause),
  }
  const isToTheEnd = spare.cause.code === 'closing'
  return {
    name: names.nameOf(spare.targetKey),
    href: objectHref(night, spare.targetKey),
    text: words.say(isToTheEnd ? 'page.spare-end' : 'page.spare-until', values),
  }
}
