import type { Night } from '../../tours/night.ts'
import type { ThinCloud } from '../../tours/thin-cloud.ts'
import { keepText } from './go-text.ts'
import { nightSheet } from './night-links.ts'
import { versionText } from './paper-frame.ts'
import type { PrintSubject } from './papers.ts'
import { type RunSheet, runMoves } from './run-sheet.ts'
import { type Names, remarkText } from './say.ts'
import type { Sheet, Viewer } from './sheet.ts'
import { type Timetable, timetable } from './timetable.ts'

export interface ThinCloudPage {
  readonly sheet: Sheet
  readonly nightTitle: string
  readonly title: string
  readonly lead: readonly string[]
  readonly keepLabel: string
  readonly keep: string
  /** Null where nothing can be shown. */
  readonly timetable: Timetable | null
  readonly noticesLabel: string
  readonly notices: readonly string[]
}

interface ThinCloudSubject {
  readonly night: Night
  readonly thin: ThinCloud
  readonly hasTour: boolean
  readonly names: Names
}

/** What the row would show through thin cloud, beside the programme that holds. */
export function thinCloudPage(viewer: Viewer, { night, thin, hasTour, names }: ThinCloudSubject): ThinCloudPage {
  const { words } = viewer
  return {
    sheet: nightSheet(viewer, words.say('thin.title-of', { title: night.title }), {
      night,
      hasTour,
      here: 'thin-cloud',
    }),
    nightTitle: night.title,
    title: words.say('thin.title'),
    lead: [words.say('thin.lead'), ...thin.notes.map((note) => remarkText(words, note)), words.say('thin.pairs')],
    keepLabel: words.say('go.keep-label'),
    keep: keepText(words, night, names, thin),
    timetable: thin.stops.length === 0 ? null : timetable(viewer, night, thin, names),
    noticesLabel: words.say('thin.notices'),
    notices: thin.notices.map((notice) => remarkText(words, notice)),
  }
}

export interface ThinCloudPiece
  extends Pick<RunSheet, 'moves' | 'timeLabel' | 'stationLabel' | 'showLabel' | 'untilLabel'> {
  readonly title: string
  readonly subtitle: string
  readonly lead: readonly string[]
  readonly keep: string
  readonly emptyText: string
  /** True when its lines have room for larger letters. */
  readonly isRoomy: boolean
  readonly version: string
}

/** So many lines fill less than a page in larger letters too. */
const MOST_ROOMY = 10

/** The same on paper, so that it is at hand when the laptop is not. */
export function thinCloudPiece(viewer: Viewer, { night, tour, thin, names }: PrintSubject): ThinCloudPiece {
  const { words } = viewer
  const moves = runMoves(viewer, night, thin, names)
  return {
    title: words.say('thin.title'),
    subtitle: words.say('print.where-when', { place: night.site.name, date: words.date(night.date) }),
    lead: [words.say('thin.on-paper'), ...thin.notes.map((note) => remarkText(words, note))],
    keep: keepText(words, night, names, thin),
    moves,
    timeLabel: words.say('print.time'),
    stationLabel: words.say('page.station'),
    showLabel: words.say('print.show'),
    untilLabel: words.say('print.until'),
    emptyText: words.say('page.no-stops'),
    isRoomy: moves.reduce((sum, { lines }) => sum + lines.length, 0) <= MOST_ROOMY,
    version: versionText(viewer, night, tour),
  }
}
