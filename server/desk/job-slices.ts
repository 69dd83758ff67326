import { advance, advanceProof, beginProof, beginTour, finishTour, limitOf, type TourWork } from '../tours/build.ts'
import type { Check } from '../tours/check.ts'
import type { EveningSky } from '../tours/evening.ts'
import type { EveningChance } from '../tours/evening-chance.ts'
import { type GoodNow, goodNow } from '../tours/good-now.ts'
import { halfHourCheck } from '../tours/half-hour.ts'
import { cloudHole, type Hole } from '../tours/hole.ts'
import { type Missing, missingShowpieces } from '../tours/missing.ts'
import type { Night } from '../tours/night.ts'
import { type ObjectTonight, objectTonight } from '../tours/object-tonight.ts'
import type { ShowObject } from '../tours/target.ts'
import { type Walk, walksOf } from '../tours/walks.ts'
import type { EveningShelf } from './evening-shelf.ts'
import type { BuiltTour, JobKinds } from './job-kinds.ts'

const SLICE_MS = 50
const FIRST_SLICE_STEPS = 20
const ROUNDS_A_SLICE = 2

export type Slices<Answer> = Generator<undefined, Answer>

interface ReadyEvening {
  readonly objects: readonly ShowObject[]
  readonly sky: EveningSky
  readonly chance: EveningChance
}

/** What every job on an evening begins with: its sky, then its chances, each taken from the shelf or reckoned in one slice. */
export function* eveningSlices(night: Night, own: readonly ShowObject[], evenings: EveningShelf): Slices<ReadyEvening> {
  const evening = evenings.withOwn(own)
  const sky = evening.sky(night)
  yield
  const chance = evening.chance(sky, night)
  yield
  return { objects: evening.objects, sky, chance }
}

type AskedTour = JobKinds['tour']['asked']

/** Builds a programme, a slice at a time; the same seed and steps give the same programme however they are sliced. */
export function* tourSlices(asked: AskedTour, evenings: EveningShelf): Slices<BuiltTour> {
  const beganMs = performance.now()
  const work = yield* workSlices(asked, evenings)
  return { ...finishTour(work), seconds: (performance.now() - beganMs) / 1000 }
}

/** Finds the same programme again and sharpens its limit for so many rounds. */
export function* proofSlices(
  { rounds, ...asked }: JobKinds['proof']['asked'],
  evenings: EveningShelf,
): Slices<number | null> {
  const work = yield* workSlices(asked, evenings)
  const proof = beginProof(work)
  for (let done = 0; done < rounds && advanceProof(work, proof, ROUNDS_A_SLICE); done += ROUNDS_A_SLICE) yield
  return limitOf(work, proof)
}

/** Searches for a programme, a slice at a time. */
function* workSlices({ own, steps, ...asked }: AskedTour, evenings: EveningShelf): Slices<TourWork> {
  const ready = yield* eveningSlices(asked.night, own, evenings)
  const work = beginTour({ ...asked, ...ready })
  yield* searchSlices(work, steps)
  return work
}

/** Goes on with a search for so many steps. */
export function* searchSlices(work: TourWork, steps: number): Slices<void> {
  let left = steps
  let slice = FIRST_SLICE_STEPS
  while (left > 0) {
    const sliceMs = performance.now()
    const taken = Math.min(slice, left)
    if (!advance(work, taken)) break
    left -= taken
    slice = nextSlice(taken, performance.now() - sliceMs)
    yield
  }
}

/** As many steps as fit a slice, at most twice as many as the time before. */
const nextSlice = (steps: number, tookMs: number): number =>
  Math.max(1, Math.min(2 * steps, Math.floor((steps * SLICE_MS) / Math.max(tookMs, 0.1))))

/** Makes the checks one after the other. */
export function* checkSlices(asked: JobKinds['checks']['asked'], evenings: EveningShelf): Slices<Check[]> {
  const { night, own, tour, marks, moments } = asked
  const ready = yield* eveningSlices(night, own, evenings)
  const checks: Check[] = []
  for (const { at, previousAt } of moments) {
    yield
    checks.push(halfHourCheck({ night, tour, ...ready, marks, at, previousAt }))
  }
  return checks
}

/** Looks at one object on one night. */
export function* tonightSlices(
  { night, own, tour, object, at }: JobKinds['tonight']['asked'],
  evenings: EveningShelf,
): Slices<ObjectTonight> {
  const ready = yield* eveningSlices(night, own, evenings)
  return objectTonight({ night, ...ready, tour, object, at })
}

/** Follows targets over the trees and roofs. */
export function* walkSlices(
  { night, own, keys }: JobKinds['walks']['asked'],
  evenings: EveningShelf,
): Slices<readonly Walk[]> {
  const { sky } = yield* eveningSlices(night, own, evenings)
  return walksOf({ night, sky }, keys)
}

/** Looks at what stands in a hole in the clouds. */
export function* holeSlices({ night, own, open, at }: JobKinds['hole']['asked'], evenings: EveningShelf): Slices<Hole> {
  const ready = yield* eveningSlices(night, own, evenings)
  return cloudHole({ night, ...ready, open, at })
}

/** Looks at what one telescope could show now. */
export function* goodNowSlices(
  { night, own, ...ask }: JobKinds['good-now']['asked'],
  evenings: EveningShelf,
): Slices<GoodNow> {
  const ready = yield* eveningSlices(night, own, evenings)
  return goodNow({ night, ...ready, ...ask })
}

/** Asks for every missing showpiece why, one a slice. */
export function* missingSlices(
  { night, own, tour, wishes }: JobKinds['missing']['asked'],
  evenings: EveningShelf,
): Slices<readonly Missing[]> {
  const ready = yield* eveningSlices(night, own, evenings)
  return yield* missingShowpieces({ night, ...ready, tour, wishes })
}
