import { middleOf } from '../../tours/hours.ts'
import type { Night } from '../../tours/night.ts'
import type { Tour } from '../../tours/tour.ts'
import { staleText, versionText } from './paper-frame.ts'
import type { Picture, PrintPictures } from './print-pictures.ts'
import type { Viewer } from './sheet.ts'

/** The whole sky in the middle of the evening, on one page. */
export interface SkyPiece {
  readonly title: string
  readonly stale: string | null
  readonly picture: Picture
  readonly version: string
}

interface SkySubject {
  readonly night: Night
  readonly tour: Tour
  readonly isStale: boolean
  readonly pictures: Pick<PrintPictures, 'sky'>
}

export const skyPiece = (viewer: Viewer, { night, tour, isStale, pictures }: SkySubject): SkyPiece => ({
  title: viewer.words.say('print.sky'),
  stale: staleText(viewer, isStale),
  picture: pictures.sky(middleOf(night)),
  version: versionText(viewer, night, tour),
})
