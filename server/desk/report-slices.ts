import { type NightFacts, nightFacts, type ReportInput } from '../tours/report.ts'
import type { Slices } from './job-slices.ts'

/** Tells of a night, in one slice. */
export function* reportSlices(input: ReportInput): Slices<NightFacts> {
  yield
  return nightFacts(input)
}
