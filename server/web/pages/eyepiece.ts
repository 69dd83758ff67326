import { linesOf } from '../../drawings/letter-widths.ts'
import type { Night } from '../../tours/night.ts'
import type { Stop, Tour } from '../../tours/tour.ts'
import { staleText, versionText } from './paper-frame.ts'
import type { PrintPictures, SizedPicture } from './print-pictures.ts'
import { type Names, noStopsText, targetName } from './say.ts'
import type { Viewer } from './sheet.ts'
import { stationName } from './stop-line.ts'

/** For each stop what will be seen, and the way there by hand: for who learns the evening beforehand. */
export interface EyepiecePages {
  readonly title: string
  readonly stale: string | null
  readonly pages: readonly { readonly stops: readonly EyepieceStop[] }[]
  readonly emptyText: string
  readonly version: string
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
}

// Millimetres, as in eyepiece.css.
const LINE_MM = 5.3
const EM_MM = 4.24
const ONE_TUBE_MM = 90
const STOP_MM = 16
/** A page of either paper without its heading, its version and the warning of an old programme. */
const ROOM_MM = 218

export function eyepiecePages(viewer: Viewer, subject: EyepieceSubject): EyepiecePages {
  const { words } = viewer
  const { night, tour, isStale } = subject
  return {
    title: words.say('print.eyepiece'),
    stale: staleText(viewer, isStale),
    pages: onPages(inOrder(night, tour).flatMap((stop) => stopOnPaper(viewer, subject, stop) ?? [])),
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
}

function stopOnPaper({ words }: Viewer, { night, names, pictures }: EyepieceSubject, stop: Stop): Measured | null {
  const { zone } = night.site
  const seen = pictures.field(stop, 'column')
  const isWide = seen !== null && seen.widthMm > ONE_TUBE_MM
  const way = isWide ? null : pictures.finder(stop, stop.startsAt, null)
  const both = [seen, way].filter((picture) => picture !== null && typeof picture !== 'string')
  if (both.length === 0) return null
  return {
    heightMm: STOP_MM + Math.max(...both.map(heightOf)),
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

const heightOf = ({ heightMm, widthMm, legend, notes }: SizedPicture): number =>
  [legend ?? '', ...notes].reduce((mm, text) => mm + linesOf(text, widthMm / EM_MM).length * LINE_MM, heightMm)

/** As many stops to a page as it holds, at least one. */
function onPages(stops: readonly Measured[]): EyepiecePages['pages'] {
  const pages: EyepieceStop[][] = []
  let roomMm = 0
  for (const { stop, heightMm } of stops) {
    if (heightMm > roomMm) {
      pages.push([])
      roomMm = ROOM_MM
    }
    pages.at(-1)?.push(stop)
    roomMm -= heightMm
  }
  return (pages.length === 0 ? [[]] : pages).map((page) => ({ stops: page }))
}
