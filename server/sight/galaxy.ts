import { apparentArcmin } from './cloud.ts'
import type { Impression, Look } from './impression.ts'
import { UNLIMITED_MAG, viewOf } from './impression.ts'
import type { Limit } from './limit.ts'
import type { View } from './optics.ts'
import { discPatch, type Patch, patchMargin, uniformMargin } from './patch.ts'
import { ramp } from './ramp.ts'
import type { GalaxyCore, GalaxySubject } from './subject.ts'

/** The light of a galaxy without its core: the middle of its disc shows. */
const discOf = ({ magnitude, majorArcmin, minorArcmin }: GalaxySubject, view: View): Patch =>
  discPatch(magnitude, majorArcmin, minorArcmin, view.trueFieldDeg)

/** By how many magnitudes a galaxy's core stands above what half of the newcomers see. */
export const coreMargin = ({ magnitude, diameterArcmin }: GalaxyCore, limit: Limit): number =>
  uniformMargin(limit, magnitude, (Math.PI / 4) * diameterArcmin ** 2)

/** By how many magnitudes the core shows before the rest; 0 or less where there is no such core. */
export const coreLead = (galaxy: GalaxySubject, view: View, limit: Limit): number =>
  galaxy.core ? coreMargin(galaxy.core, limit) - patchMargin(limit, discOf(galaxy, view)) : 0

/** A galaxy: seen by its disc or by its core, whichever shows first; form is the disc's and needs size and light to spare (common practice, no source). */
export function galaxyLook(galaxy: GalaxySubject, view: View): Look {
  const disc = discOf(galaxy, view)
  const { core } = galaxy
  const large = ramp(apparentArcmin(galaxy.majorArcmin, galaxy.minorArcmin, view), 120, 480)
  return (limit): Impression => {
    const discMag = patchMargin(limit, disc)
    const lightMag = core ? Math.max(discMag, coreMargin(core, limit)) : discMag
    const shape = large * ramp(discMag, 1, 3)
    return { lightMag, otherMag: UNLIMITED_MAG, view: viewOf(lightMag, shape, ramp(discMag, 3, 5), 0) }
  }
}
