import { besideTelescopes } from '../tours/beside.ts'
import type { BesideHalf } from '../tours/beside-lines.ts'
import type { EveningShelf } from './evening-shelf.ts'
import type { JobKinds } from './job-kinds.ts'
import type { Slices } from './job-slices.ts'

/** Asks what the stations that are no telescope show, under a sky that holds the sights for bare eyes too. */
export function* besideSlices(
  { night, own, extra, passes, stops }: JobKinds['beside']['asked'],
  evenings: EveningShelf,
): Slices<readonly BesideHalf[]> {
  const evening = evenings.withOwn([...extra, ...own])
  const sky = evening.sky(night)
  yield
  return yield* besideTelescopes({ night, objects: evening.objects, sky, stops, passes })
}
