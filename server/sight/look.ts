import { asterismLook } from './asterism.ts'
import { cloudLook } from './cloud.ts'
import { cometLook } from './comet.ts'
import { doubleLook } from './double.ts'
import { galaxyLook } from './galaxy.ts'
import { globularLook } from './globular.ts'
import type { Look } from './impression.ts'
import { moonLook } from './moon.ts'
import { openClusterLook } from './open-cluster.ts'
import type { View } from './optics.ts'
import { planetLook } from './planet.ts'
import { starLook } from './star.ts'
import type { Subject } from './subject.ts'

/** How this thing looks in this view, made ready once for any sky. */
export function lookOf(subject: Subject, view: View): Look {
  switch (subject.kind) {
    case 'star':
      return starLook(subject)
    case 'double':
      return doubleLook(subject, view)
    case 'open-cluster':
      return openClusterLook(subject, view)
    case 'globular':
      return globularLook(subject, view)
    case 'galaxy':
      return galaxyLook(subject, view)
    case 'comet':
      return cometLook(subject, view)
    case 'asterism':
      return asterismLook(subject, view)
    case 'planet':
      return planetLook(subject, view)
    case 'moon':
      return moonLook(subject, view)
    default:
      return cloudLook(subject, view)
  }
}
