import type { BestView } from '../sight/eyepiece.ts'
import type { Prepared } from '../sight/sighting.ts'
import type { KitOcular, Tube } from './telescope.ts'
import type { Setup } from './tour.ts'

/** What to put in for one target at one telescope, and its chance and view for any moment. */
export interface Chosen {
  readonly setup: Setup
  /** What the other tube of the mount shows as a second look, wide or close; null where it is not worth one. */
  readonly beside: Setup | null
  readonly ask: Prepared
}

/** A view through this tube as a setup; null when it is not one of these oculars. */
export function setupOf(tube: Tube, oculars: readonly KitOcular[], { ocularIndex, view }: BestView): Setup | null {
  const ocular = oculars[ocularIndex]
  const { powerX, trueFieldDeg } = view
  return ocular === undefined ? null : { tubeId: tube.id, eyepieceId: ocular.id, powerX, trueFieldDeg }
}

/** How much a view shows to how many, 0 to 1. */
export const meritOf = ({ sighting }: BestView): number => sighting.chance * sighting.view
