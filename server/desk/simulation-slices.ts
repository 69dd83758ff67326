import { seededRandom } from '../sky/random.ts'
import { advanceLines, beginLines } from '../tours/simulation.ts'
import { USUAL_HABITS } from '../tours/simulation-lines.ts'
import { lineReport } from '../tours/simulation-report.ts'
import { rowsOf } from '../tours/simulation-rows.ts'
import { type LineSummary, summaryOf } from '../tours/simulation-summary.ts'
import { presentOf, visitorsOf } from '../tours/simulation-visitors.ts'
import type { EveningShelf } from './evening-shelf.ts'
import type { JobKinds } from './job-kinds.ts'
import type { Slices } from './job-slices.ts'

/** As many evenings as steady the figures; the next one has the next seed. */
const EVENINGS = 20
const ACTS_A_SLICE = 500

/** Plays evenings with a programme, a part of one a slice; the same seed gives the same evenings. */
export function* simulationSlices(
  { night, own, stops, seed }: JobKinds['simulation']['asked'],
  evenings: EveningShelf,
): Slices<JobKinds['simulation']['answer']> {
  const { objects, sky } = evenings.withOwn(own)
  const stations = rowsOf({ night, stops, sky: sky(night), objects })
  const present = presentOf(night)
  const played: LineSummary[] = []
  for (let k = 0; k < EVENINGS; k++) {
    yield
    const visitors = visitorsOf(present, night.settings.stayMin, seededRandom(seed + k))
    const evening = beginLines({ stations, visitors, habits: USUAL_HABITS })
    while (advanceLines(evening, ACTS_A_SLICE)) yield
    played.push(summaryOf(evening, present))
  }
  return lineReport(played, stations, present)
}
