import type { Night } from '../../tours/night.ts'
import type { Spare, Tour } from '../../tours/tour.ts'
import { type NightLink, nightLinks } from './night-links.ts'
import { causeText, type Names, remarkText } from './say.ts'
import { daySheet, type Sheet, type Viewer } from './sheet.ts'
import { type StopLine, stopLine } from './stop-line.ts'

export interface ProgrammeGroup {
  readonly heading: string
  readonly note: string | null
  readonly stops: readonly StopLine[]
  readonly spares: readonly SpareLine[]
  readonly isEmpty: boolean
}

export interface SpareLine {
  readonly name: string
  readonly text: string
}

export interface ProgrammePage {
  readonly sheet: Sheet
  readonly nightTitle: string
  readonly title: string
  readonly made: string | null
  readonly links: readonly NightLink[]
  readonly linksLabel: string
  readonly byLabel: string
  readonly ways: readonly NightLink[]
  readonly isByTime: boolean
  readonly groups: readonly ProgrammeGroup[]
  readonly notices: readonly string[]
  readonly noticesLabel: string
  readonly sparesLabel: string
  readonly emptyText: string
  readonly nothingText: string
  readonly build: { readonly action: string; readonly text: string; readonly note: string } | null
}

export interface ProgrammeSubject {
  readonly night: Night
  readonly tour: Tour | undefined
  readonly by: 'telescope' | 'time'
  readonly names: Names
}

/** The programme by telescope or by time, with its reasons, spares and the rules that gave way. */
export function programmePage(viewer: Viewer, subject: ProgrammeSubject): ProgrammePage {
  const { words } = viewer
  const { night, tour, by } = subject
  const groups = !tour ? [] : by === 'time' ? byTime(viewer, subject, tour) : byTelescope(viewer, subject, tour)
  return {
    sheet: daySheet(viewer, words.say('page.programme-of', { title: night.title }), null),
    nightTitle: night.title,
    title: words.say('page.programme'),
    made: tour ? madeText(viewer, night, tour) : null,
    links: nightLinks(viewer, night, tour !== undefined, 'programme'),
    linksLabel: words.say('page.night-links'),
    byLabel: words.say('page.programme-by'),
    ways: ways(viewer, night, by),
    isByTime: by === 'time',
    groups,
    notices: (tour?.notices ?? []).map((notice) => remarkText(words, notice)),
    noticesLabel: words.say('page.notices'),
    sparesLabel: words.say('page.spares'),
    emptyText: words.say('page.no-programme'),
    nothingText: words.say('page.no-stops'),
    build: buildForm(viewer, night, tour),
  }
}

const madeText = ({ words }: Viewer, night: Night, tour: Tour): string =>
  words.say('page.made', { version: tour.version, time: words.time(tour.madeAt, night.site.zone) })

function ways({ words }: Viewer, night: Night, by: 'telescope' | 'time'): NightLink[] {
  return (['telescope', 'time'] as const).map((way) => ({
    href: way === 'time' ? `/nights/${night.id}/programme?by=time` : `/nights/${night.id}/programme`,
    text: words.say(`page.by-${way}`),
    isHere: way === by,
  }))
}

function buildForm({ words, mayHost }: Viewer, night: Night, tour: Tour | undefined): ProgrammePage['build'] {
  if (!mayHost) return null
  return {
    action: `/nights/${night.id}/programme`,
    text: words.say(tour ? 'page.build-again' : 'page.build'),
    note: words.say(tour ? 'page.build-again-note' : 'page.build-note'),
  }
}

function byTelescope(viewer: Viewer, { night, names }: ProgrammeSubject, tour: Tour): ProgrammeGroup[] {
  return night.stations.map((station) => {
    const stops = tour.stops.filter(({ stationId }) => stationId === station.id).sort(byStart)
    const spares = tour.spares.filter(({ stationId }) => stationId === station.id)
    return {
      heading: station.name,
      note: [station.telescope?.name, station.operator].filter(Boolean).join(', ') || null,
      stops: stops.map((stop) => stopLine(viewer, night, stop, names)),
      spares: spares.map((spare) => spareLine(viewer, night, spare, names)),
      isEmpty: stops.length === 0,
    }
  })
}

function byTime(viewer: Viewer, { night, names }: ProgrammeSubject, tour: Tour): ProgrammeGroup[] {
  const starts = [...new Set(tour.stops.map(({ startsAt }) => startsAt.getTime()))].sort((a, b) => a - b)
  return starts.map((start) => ({
    heading: viewer.words.time(new Date(start), night.site.zone),
    note: null,
    stops: tour.stops
      .filter(({ startsAt }) => startsAt.getTime() === start)
      .map((stop) => stopLine(viewer, night, stop, names)),
    spares: [],
    isEmpty: false,
  }))
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
    text: words.say(isToTheEnd ? 'page.spare-end' : 'page.spare-until', values),
  }
}
