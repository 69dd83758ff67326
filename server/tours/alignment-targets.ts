import { bodyLook } from '../sky/body.ts'
import type { Horizontal } from '../sky/horizontal.ts'
import type { Place } from '../sky/place.ts'
import { starHorizontal } from '../sky/star.ts'
import { seenFrom } from './alignment-lights.ts'
import type { ShowObject } from './target.ts'
import { middleOf, type Stop } from './tour.ts'

/** Where each target of a programme is seen in the middle of the first stop that shows it. */
export function targetDirections(
  stops: readonly Stop[],
  objects: readonly ShowObject[],
  place: Place,
): readonly Horizontal[] {
  const firsts = new Map(stops.toReversed().map((stop) => [stop.targetKey, stop]))
  return [...firsts.values()].flatMap((stop) => {
    const object = objects.find(({ key }) => key === stop.targetKey)
    return object ? directionOf(object, middleOf(stop), place) : []
  })
}

function directionOf({ body, raDeg, decDeg, ...motion }: ShowObject, at: Date, place: Place): readonly Horizontal[] {
  if (body !== null) return [seenFrom(bodyLook(body, at, place))]
  if (raDeg === null || decDeg === null) return []
  return [seenFrom(starHorizontal({ ...motion, raDeg, decDeg }, at, place))]
}
