import { parentPort, workerData } from 'node:worker_threads'
import { eveningShelf } from './evening-shelf.ts'
import { type Asked, type Job, PRIORITIES } from './job-kinds.ts'
import { checkSlices, tourSlices } from './job-slices.ts'
import { sliceQueue } from './slice-queue.ts'

const port = parentPort
if (port === null) throw new Error('This file runs as a worker only')
const evenings = eveningShelf(workerData)
const queue = sliceQueue((answered) => port.postMessage(answered))

port.on('message', ({ id, job }: Asked) => queue.add(id, PRIORITIES[job.kind], slicesOf(job)))

function slicesOf(job: Job): Generator<undefined, unknown> {
  return job.kind === 'tour' ? tourSlices(job, evenings) : checkSlices(job, evenings)
}
