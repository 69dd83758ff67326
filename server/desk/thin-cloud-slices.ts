import { beginThinCloud, finishThinCloud, type ThinCloud, underThinCloud } from '../tours/thin-cloud.ts'
import type { EveningShelf } from './evening-shelf.ts'
import type { JobKinds } from './job-kinds.ts'
import { eveningSlices, type Slices, searchSlices } from './job-slices.ts'

/** Plans the evening as it would go under thin cloud. */
export function* thinCloudSlices(
  { night, own, steps, ...asked }: JobKinds['thin-cloud']['asked'],
  evenings: EveningShelf,
): Slices<ThinCloud> {
  const thin = underThinCloud(night)
  const ready = yield* eveningSlices(thin, own, evenings)
  const work = beginThinCloud({ night: thin, ...ready, ...asked })
  yield
  yield* searchSlices(work, steps)
  return finishThinCloud(work)
}
