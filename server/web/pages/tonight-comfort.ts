import { eyepieceHeight, type HeightRange, isForChair, isForChild } from '../../tours/eyepiece-height.ts'
import type { Station } from '../../tours/night.ts'
import type { Setup } from '../../tours/tour.ts'
import type { Words } from '../../words/words.ts'

interface Shown {
  readonly setups: readonly Setup[]
  /** Null where it is not known. */
  readonly altitudeDeg: number | null
}

/** Who a station suits: children where the host says so or the legs bring the eyepiece to their eyes, and whoever must sit. */
export function comfortTexts(words: Words, station: Station, { setups, altitudeDeg }: Shown): string[] {
  const heights = altitudeDeg === null ? [] : heightsOf(station, setups, altitudeDeg)
  const { telescope, isForChildren } = station
  const isLow = heights.length > 0 && heights.every(isForChild)
  const isForSitting = telescope !== null && heights.length > 0 && heights.every((it) => isForChair(it, telescope))
  return [
    ...(isForChildren ? [words.say('tonight.children')] : isLow ? [words.say('tonight.children-reach')] : []),
    ...(isForSitting ? [words.say('tonight.sit')] : []),
  ]
}

/** Of every tube that is looked through, or of all where that is not known. */
function heightsOf({ telescope }: Station, setups: readonly Setup[], altitudeDeg: number): HeightRange[] {
  if (telescope === null || altitudeDeg < 0) return []
  const used = telescope.tubes.filter(({ id }) => setups.some(({ tubeId }) => tubeId === id))
  return (used.length > 0 ? used : telescope.tubes).map((tube) => eyepieceHeight(telescope, tube, altitudeDeg))
}
