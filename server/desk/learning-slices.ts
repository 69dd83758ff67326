import { type FieldTrial, siteLearning, trialsOf } from '../tours/learning.ts'
import type { EveningShelf } from './evening-shelf.ts'
import type { JobKinds } from './job-kinds.ts'

/** Reckons what the marks of a site tell, a night at a time. */
export function* learningSlices(
  { nights, own }: JobKinds['learning']['asked'],
  evenings: EveningShelf,
): Generator<undefined, JobKinds['learning']['answer']> {
  const { objects } = evenings.withOwn(own)
  const trials: FieldTrial[] = []
  for (const night of nights) {
    trials.push(...trialsOf(night, objects))
    yield
  }
  return siteLearning(nights, trials)
}
