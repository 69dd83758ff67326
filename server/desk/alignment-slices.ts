import { type AlignmentPair, alignmentPairs } from '../tours/alignment.ts'
import type { BrightStar } from '../tours/alignment-lights.ts'
import { type AlignmentOutlook, noPairCause, outlookInstants } from '../tours/alignment-outlook.ts'
import { targetDirections } from '../tours/alignment-targets.ts'
import { placeOf } from '../tours/site.ts'
import type { EveningShelf } from './evening-shelf.ts'
import type { JobKinds } from './job-kinds.ts'
import type { Slices } from './job-slices.ts'

/** Chooses the stars to set mounts up on, in one slice, by where the programme's targets stand. */
export function* alignmentSlices(
  { night, own, stops, at }: JobKinds['alignment']['asked'],
  stars: readonly BrightStar[],
  evenings: EveningShelf,
): Slices<readonly AlignmentPair[]> {
  const { objects } = evenings.withOwn(own)
  const bodies = objects.flatMap(({ body, name }) => (body === null ? [] : [{ key: body, name }]))
  return alignmentPairs({ stars, bodies, night, at, targets: targetDirections(stops, objects, placeOf(night.site)) })
}

/** Looks for the first instant with two stars, one instant a slice. */
export function* outlookSlices(
  { night, at, untilAt }: JobKinds['alignment-outlook']['asked'],
  stars: readonly BrightStar[],
): Slices<AlignmentOutlook> {
  const cause = noPairCause(stars, night, at)
  for (const instant of outlookInstants(at, untilAt)) {
    yield
    if (noPairCause(stars, night, instant) === null) return { cause, fromAt: instant }
  }
  return { cause, fromAt: null }
}
