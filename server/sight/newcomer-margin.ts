import { backdropOf } from './backdrop.ts'
import type { Conditions } from './conditions.ts'
import { limitThrough } from './limit.ts'
import { lookOf } from './look.ts'
import type { Trial } from './newcomer.ts'
import type { View } from './optics.ts'
import type { SkyGeometry } from './sky-brightness.ts'
import type { Subject } from './subject.ts'

/**
 * What the model says of a thing before any newcomer factor: the magnitudes of its light over a laboratory's threshold,
 * those of what no light helps, and how dazzled the visitors are. The chance at a factor F is that of `lightMag` less
 * 2.5 log F. The geometry of the Moon holds no moonlight.
 */
export function marginsOf(
  subject: Subject,
  geometry: SkyGeometry,
  view: View,
  conditions: Conditions,
): Pick<Trial, 'lightMag' | 'otherMag' | 'dazzle'> {
  const laboratory = { ...conditions, noviceFactor: 1 }
  const { air, dazzle, skyCd } = backdropOf(geometry, laboratory)
  const { lightMag, otherMag } = lookOf(subject, view)(limitThrough(view, laboratory)(skyCd, air))
  return { lightMag, otherMag, dazzle }
}
