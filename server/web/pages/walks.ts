import { firstShowings } from '../../tours/first-showing.ts'
import type { Night } from '../../tours/night.ts'
import type { Tour } from '../../tours/tour.ts'
import { staleText, versionText } from './paper-frame.ts'
import type { Picture, PrintPictures } from './print-pictures.ts'
import type { Names } from './say.ts'
import type { Viewer } from './sheet.ts'
import { stationName } from './stop-line.ts'

/** Where each target walks over the trees and roofs in the public hours, two to a page. */
interface Walks {
  readonly title: string
  readonly how: string
  readonly stale: string | null
  readonly pages: readonly { readonly walks: readonly WalkOnPaper[] }[]
  readonly emptyText: string
  readonly version: string
}

interface WalkOnPaper {
  readonly name: string
  /** Which stations show it. */
  readonly stations: string
  readonly picture: Picture
}

interface WalksSubject {
  readonly night: Night
  readonly tour: Tour
  readonly isStale: boolean
  readonly names: Names
  readonly pictures: Pick<PrintPictures, 'walk'>
}

const PER_PAGE = 2

export function walksPiece(viewer: Viewer, subject: WalksSubject): Walks {
  const { words } = viewer
  const { night, tour, isStale } = subject
  const walks = walksOf(viewer, subject)
  return {
    title: words.say('print.walks'),
    how: words.say('walks.how'),
    stale: staleText(viewer, isStale),
    pages: Array.from({ length: Math.max(1, Math.ceil(walks.length / PER_PAGE)) }, (_, page) => ({
      walks: walks.slice(page * PER_PAGE, (page + 1) * PER_PAGE),
    })),
    emptyText: words.say(tour.stops.length === 0 ? 'walks.none' : 'walks.no-walk'),
    version: versionText(viewer, night, tour),
  }
}

function walksOf({ words }: Viewer, { night, tour, names, pictures }: WalksSubject): readonly WalkOnPaper[] {
  return firstShowings(night, tour).flatMap(({ targetKey }) => {
    const picture = pictures.walk(targetKey)
    const stops = tour.stops.filter((stop) => stop.targetKey === targetKey)
    const stations = new Set(stops.map(({ stationId }) => stationName(night, names, stationId)))
    const name = names.nameOf(targetKey)
    return picture === null ? [] : [{ name, stations: words.list([...stations]), picture }]
  })
}
