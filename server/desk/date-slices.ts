import { type DateFacts, monthOfDates } from '../tours/date-facts.ts'
import type { JobKinds, WorkerStart } from './job-kinds.ts'
import type { Slices } from './job-slices.ts'

/** Looks at every date of a month, one a slice. */
export function* dateSlices(
  { ask, own }: JobKinds['dates']['asked'],
  start: Pick<WorkerStart, 'objects'>,
): Slices<readonly DateFacts[]> {
  const dates: DateFacts[] = []
  for (const facts of monthOfDates(ask, [...start.objects, ...own])) {
    dates.push(facts)
    yield
  }
  return dates
}
