import { type FieldTrial, siteLearning, trialsOf } from '../tours/learning.ts'
import type { ShowObject } from '../tours/target.ts'
import type { JobKinds } from './job-kinds.ts'

/** Reckons what the marks of a site tell, a night at a time. */
export function* learningSlices(
  { nights }: JobKinds['learning']['asked'],
  objects: readonly ShowObject[],
): Generator<undefined, JobKinds['learning']['answer']> {
  const trials: FieldTrial[] = []
  for (const night of nights) {
    trials.push(...trialsOf(night, objects))
    yield
  }
  return siteLearning(nights, trials)
}
