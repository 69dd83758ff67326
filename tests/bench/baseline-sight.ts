import type { Conditions } from '../../server/sight/conditions.ts'
import type { View } from '../../server/sight/optics.ts'
import { sighting } from '../../server/sight/sighting.ts'
import type { SkyGeometry } from '../../server/sight/sky-brightness.ts'
import type { Subject } from '../../server/sight/subject.ts'

/** The straightforward way to a table of chances: one whole sighting, with its reasons, for every object, view and moment, in that order. */
export function chancesOneByOne(
  subjects: readonly Subject[],
  skies: readonly (readonly SkyGeometry[])[],
  views: readonly View[],
  conditions: Conditions,
): Float64Array {
  return Float64Array.from(
    subjects.flatMap((subject, i) =>
      views.flatMap((view) => (skies[i] ?? []).map((place) => sighting(subject, place, view, conditions).chance)),
    ),
  )
}
