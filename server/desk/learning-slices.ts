import { type FieldTrial, siteLearning, trialsOf } from '../tours/learning.ts'
import type { EveningShelf } from './evening-shelf.ts'
import type { JobKinds } from './job-kinds.ts'

/** Reckons what the marks of a site tell, a night at a time. */
export function* learningSlices(
  { nights }: JobKinds['learning']['asked'],
  evenings: EveningShelf,
): Generator<undefined, JobKinds['learning']['answer']> {
  const trials: FieldTrial[] = []
  for (const night of nights) {
    trials.push(...trialsOf(night, evenings.withOwn(night.own).objects))
    yield
  }
  return siteLearning(nights, trials)
}
