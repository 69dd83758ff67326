import { linesOf } from '../../drawings/letter-widths.ts'
import type { Night } from '../../tours/night.ts'
import type { Stop, Tour } from '../../tours/tour.ts'
import type { PaperLook } from './paper.ts'
import { staleText, versionText } from './paper-frame.ts'
import type { PrintPictures, SizedPicture } from './print-pictures.ts'
import { type Names, noStopsText, targetName } from './say.ts'
import type { Viewer } from './sheet.ts'
import { stationName } from './stop-line.ts'

/** For each stop what will be seen, and the way there by hand: for who learns the evening beforehand. */
interface EyepiecePages {
  readonly title: string
  readonly stale: string | null
  readonly pages: readonly EyepiecePage[]
  readonly emptyText: string
  readonly version: string
}

interface EyepiecePage {
  readonly stops: readonly EyepieceStop[]
  /** True where what is said has room for larger letters. */
  readonly isRoomy: boolean
}

interface EyepieceStop {
  readonly name: string
  readonly when: string
  /** Side by side, or one over the other where the first shows two tubes. */
  readonly pictures: readonly EyepiecePicture[]
}

interface EyepiecePicture {
  readonly svg: SizedPicture['svg']
  readonly notes: readonly string[]
  readonly isWide: boolean
}

interface EyepieceSubject {
  readonly night: Night
  readonly tour: Tour
  readonly isStale: boolean
  readonly names: Names
  readonly pictures: Pick<PrintPictures, 'field' | 'finder'>
  readonly look: Pick<PaperLook, 'paper'>
}

// Millimetres, as in eyepiece.css; how much larger a picture is printed than it is drawn.
const LARGER = 92 / 84
const NOTES = { usual: { lineMm: 6.2, emMm: 4.94 }, roomy: { lineMm: 7.5, emMm: 6 } } as const
const NOTE_MM = 1.5
const ONE_TUBE_MM = 90
const STOP_MM = 18
/** A page without its heading, its version and the warning of an old programme. */
const ROOM_MM = { a4: 237, letter: 218 } as const

export function eyepiecePages(viewer: Viewer, subject: EyepieceSubject): EyepiecePages {
  const { words } = viewer
  const { night, tour, isStale } = subject
  return {
    title: words.say('print.eyepiece'),
    stale: staleText(viewer, isStale),
    pages: onPages(
      inOrder(night, tour).flatMap((stop) => stopOnPaper(viewer, subject, stop) ?? []),
      subject.look.paper,
    ),
    emptyText: tour.stops.length === 0 ? noStopsText(words, tour) : words.say('at-eyepiece.none'),
    version: versionText(viewer, night, tour),
  }
}

/** Station after station, so that each has its own pages to take along. */
const inOrder = ({ stations }: Night, { stops }: Tour): readonly Stop[] =>
  stations.flatMap(({ id }) =>
    stops.filter(({ stationId }) => stationId === id).toSorted((a, b) => a.startsAt.getTime() - b.startsAt.getTime()),
  )

interface Measured {
  readonly stop: EyepieceStop
  readonly heightMm: number
  /** In larger letters. */
  readonly roomyMm: number
}

function stopOnPaper({ words }: Viewer, { night, names, pictures }: EyepieceSubject, stop: Stop): Measured | null {
  const { zone } = night.site
  const seen = pictures.field(stop, 'column')
  const isWide = seen !== null && seen.widthMm > ONE_TUBE_MM
  const way = isWide ? null : pictures.finder(stop, stop.startsAt, null)
  const both = [seen, way].filter((picture) => picture !== null && typeof picture !== 'string')
  if (both.length === 0) return null
  return {
    heightMm: STOP_MM + Math.max(...both.map((picture) => heightOf(picture, NOTES.usual))),
    roomyMm: STOP_MM + Math.max(...both.map((picture) => heightOf(picture, NOTES.roomy))),
    stop: {
      name: targetName(words, names, stop.targetKey, stop.aim),
      when: words.say('at-eyepiece.when', {
        station: stationName(night, names, stop.stationId),
        from: words.time(stop.startsAt, zone),
        to: words.time(stop.endsAt, zone),
      }),
      pictures: both.map(({ svg, legend, notes }) => ({ svg, notes: [...(legend ? [legend] : []), ...notes], isWide })),
    },
  }
}

function heightOf(
  { heightMm, widthMm, legend, notes }: SizedPicture,
  { lineMm, emMm }: (typeof NOTES)['usual' | 'roomy'],
): number {
  const roomEm = (widthMm * LARGER) / emMm
  return [...(legend ? [legend] : []), ...notes].reduce(
    (mm, text) => mm + NOTE_MM + linesOf(text, roomEm).length * lineMm,
    heightMm * LARGER,
  )
}

/** As many stops to a page as it holds, at least one. */
function onPages(stops: readonly Measured[], paper: PaperLook['paper']): readonly EyepiecePage[] {
  const pages: Measured[][] = []
  let roomMm = 0
  for (const stop of stops) {
    if (stop.heightMm > roomMm) {
      pages.push([])
      roomMm = ROOM_MM[paper]
    }
    pages.at(-1)?.push(stop)
    roomMm -= stop.heightMm
  }
  const roomyMm = (page: readonly Measured[]): number => page.reduce((mm, stop) => mm + stop.roomyMm, 0)
  return (pages.length === 0 ? [[]] : pages).map((page) => ({
    stops: page.map(({ stop }) => stop),
    isRoomy: page.length > 0 && roomyMm(page) <= ROOM_MM[paper],
  }))
}
