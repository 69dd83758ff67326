import { firstShowings } from '../../tours/first-showing.ts'
import { middleOf } from '../../tours/hours.ts'
import type { Night } from '../../tours/night.ts'
import type { Tour } from '../../tours/tour.ts'
import { staleText, versionText } from './paper-frame.ts'
import type { Picture, PrintPictures } from './print-pictures.ts'
import type { Names } from './say.ts'
import type { Viewer } from './sheet.ts'

/** The whole sky in the middle of the evening, on one page. */
export interface SkyPiece {
  readonly title: string
  readonly stale: string | null
  readonly picture: Picture
  /** The targets by the numbers that they have on the chart. */
  readonly key: readonly SkyNumber[]
  readonly version: string
}

interface SkyNumber {
  readonly number: string
  readonly name: string
}

interface SkySubject {
  readonly night: Night
  readonly tour: Tour
  readonly isStale: boolean
  readonly names: Pick<Names, 'nameOf'>
  readonly pictures: Pick<PrintPictures, 'sky'>
}

export const skyPiece = (viewer: Viewer, { night, tour, isStale, names, pictures }: SkySubject): SkyPiece => ({
  title: viewer.words.say('print.sky'),
  key: firstShowings(night, tour).map(({ targetKey }, i) => ({
    number: viewer.words.number(i + 1),
    name: names.nameOf(targetKey),
  })),
  stale: staleText(viewer, isStale),
  picture: pictures.sky(middleOf(night)),
  version: versionText(viewer, night, tour),
})
