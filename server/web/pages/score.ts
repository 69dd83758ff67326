import type { Night } from '../../tours/night.ts'
import type { Tour } from '../../tours/tour.ts'
import { staleText, versionText } from './paper-frame.ts'
import type { Picture, PrintPictures } from './print-pictures.ts'
import { noStopsText } from './say.ts'
import type { Viewer } from './sheet.ts'

/** The row through the evening on sheets that lie on their side. */
interface ScorePiece {
  readonly title: string
  readonly stale: string | null
  readonly sheets: readonly Picture[]
  readonly emptyText: string
  readonly version: string
}

interface ScorePieceSubject {
  readonly night: Night
  readonly tour: Tour
  readonly isStale: boolean
  readonly pictures: Pick<PrintPictures, 'score'>
}

export const scorePiece = (viewer: Viewer, { night, tour, isStale, pictures }: ScorePieceSubject): ScorePiece => ({
  title: viewer.words.say('print.score'),
  stale: staleText(viewer, isStale),
  sheets: pictures.score(),
  emptyText: noStopsText(viewer.words, tour),
  version: versionText(viewer, night, tour),
})
