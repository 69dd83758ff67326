import { parentPort, workerData } from 'node:worker_threads'
import { alignmentSlices, outlookSlices } from './alignment-slices.ts'
import { besideSlices } from './beside-slices.ts'
import { dateSlices } from './date-slices.ts'
import { eveningShelf } from './evening-shelf.ts'
import { faultSlices } from './fault-slices.ts'
import { type Asked, type Job, PRIORITIES, type WorkerStart } from './job-kinds.ts'
import {
  checkSlices,
  goodNowSlices,
  holeSlices,
  missingSlices,
  proofSlices,
  tonightSlices,
  tourSlices,
  walkSlices,
} from './job-slices.ts'
import { learningSlices } from './learning-slices.ts'
import { reportSlices } from './report-slices.ts'
import { seasonSlices } from './season-slices.ts'
import { simulationSlices } from './simulation-slices.ts'
import { sliceQueue } from './slice-queue.ts'
import { thinCloudSlices } from './thin-cloud-slices.ts'
import { conflictSlices, costSlices } from './wish-slices.ts'

const port = parentPort
if (port === null) throw new Error('This file runs as a worker only')
const start: WorkerStart = workerData
const evenings = eveningShelf(start)
const queue = sliceQueue((answered) => port.postMessage(answered))

port.on('message', ({ id, job }: Asked) => queue.add(id, PRIORITIES[job.kind], slicesOf(job)))

function slicesOf(job: Job): Generator<undefined, unknown> {
  if (job.kind === 'faults') return faultSlices(job, start, evenings)
  if (job.kind === 'tonight') return tonightSlices(job, evenings)
  if (job.kind === 'walks') return walkSlices(job, evenings)
  if (job.kind === 'hole') return holeSlices(job, evenings)
  if (job.kind === 'good-now') return goodNowSlices(job, evenings)
  if (job.kind === 'thin-cloud') return thinCloudSlices(job, evenings)
  if (job.kind === 'missing') return missingSlices(job, evenings)
  if (job.kind === 'beside') return besideSlices(job, evenings)
  if (job.kind === 'simulation') return simulationSlices(job, evenings)
  if (job.kind === 'report') return reportSlices(job)
  if (job.kind === 'season') return seasonSlices(job, start)
  if (job.kind === 'dates') return dateSlices(job, start)
  if (job.kind === 'learning') return learningSlices(job, evenings)
  if (job.kind === 'tour') return tourSlices(job, evenings)
  if (job.kind === 'proof') return proofSlices(job, evenings)
  if (job.kind === 'wish-conflicts') return conflictSlices(job, evenings)
  if (job.kind === 'wish-costs') return costSlices(job, evenings)
  if (job.kind === 'alignment-outlook') return outlookSlices(job, start.stars)
  return job.kind === 'checks' ? checkSlices(job, evenings) : alignmentSlices(job, start.stars, evenings)
}
