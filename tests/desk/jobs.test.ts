import { afterEach, describe, expect, it, vi } from 'vitest'
import type { Answered } from '../../server/desk/job-kinds.ts'
import { type Jobs, jobQueue } from '../../server/desk/jobs.ts'
import { sliceQueue } from '../../server/desk/slice-queue.ts'

/** A worker that does as its seed says: 0 answers with the thread it runs in, 1 throws, 2 exits, 3 fails outright. */
const ODD_WORKER = `
  const { parentPort, threadId } = require('node:worker_threads')
  parentPort.on('message', ({ id, job: { seed } }) => {
    if (seed === 0) parentPort.postMessage({ id, value: threadId })
    if (seed === 1) parentPort.postMessage({ id, error: new RangeError('no such sky') })
    if (seed === 2) process.exit(3)
    if (seed === 3) throw new Error('struck by lightning')
  })
`
const work = (jobs: Jobs, seed: number): Promise<unknown> => jobs.run(JSON.parse(`{"kind":"tour","seed":${seed}}`))

let jobs: Jobs
afterEach(() => jobs?.close())

describe('a worker', () => {
  it('stays the same from job to job', async () => {
    jobs = jobQueue(ODD_WORKER, null)
    expect(await work(jobs, 0)).toBe(await work(jobs, 0))
  })

  it('passes on what a job throws, and goes on working', async () => {
    jobs = jobQueue(ODD_WORKER, null)
    const first = await work(jobs, 0)
    await expect(work(jobs, 1)).rejects.toThrow('no such sky')
    expect(await work(jobs, 0)).toBe(first)
  })

  it('is replaced when it exits, and its jobs fail with a Fault', async () => {
    jobs = jobQueue(ODD_WORKER, null)
    const first = await work(jobs, 0)
    const failed = await Promise.allSettled([work(jobs, 2), work(jobs, 9)])
    for (const one of failed) expect(one).toMatchObject({ reason: { code: 'busy', key: 'fault.worker-stopped' } })
    const second = await work(jobs, 0)
    expect(second).toBeTypeOf('number')
    expect(second).not.toBe(first)
  })

  it('is replaced when it fails outright', async () => {
    const complaints = vi.spyOn(console, 'error').mockImplementation(() => {})
    jobs = jobQueue(ODD_WORKER, null)
    await expect(work(jobs, 3)).rejects.toMatchObject({ code: 'busy' })
    expect(complaints).toHaveBeenCalledOnce()
    expect(await work(jobs, 0)).toBeTypeOf('number')
    complaints.mockRestore()
  })

  it('takes nothing more once the service closes, and fails what it had', async () => {
    jobs = jobQueue(ODD_WORKER, null)
    const unanswered = work(jobs, 9)
    const outcome = expect(unanswered).rejects.toMatchObject({ key: 'fault.worker-stopped' })
    await jobs.close()
    await outcome
    await expect(work(jobs, 0)).rejects.toMatchObject({ key: 'fault.worker-stopped' })
  })
})

describe('jobs in slices', () => {
  function* slices(name: string, count: number, log: string[]): Generator<undefined, string> {
    for (let i = 0; i < count; i++) {
      log.push(name)
      yield
    }
    return name
  }

  it('let a more urgent one come in between', async () => {
    const log: string[] = []
    const answers: Answered[] = []
    const queue = sliceQueue((answered) => answers.push(answered))
    function* interrupted() {
      yield* slices('long', 1, log)
      queue.add(2, 0, slices('urgent', 3, log))
      return yield* slices('long', 3, log)
    }
    queue.add(1, 5, interrupted())
    await vi.waitUntil(() => answers.length === 2)
    expect(answers.map((answer) => answer.id)).toEqual([2, 1])
    expect(log).toEqual(['long', 'long', 'urgent', 'urgent', 'urgent', 'long', 'long'])
  })

  it('are done in the order in which they came when they are alike', async () => {
    const log: string[] = []
    const answers: Answered[] = []
    const queue = sliceQueue((answered) => answers.push(answered))
    queue.add(1, 1, slices('a', 2, log))
    queue.add(2, 1, slices('b', 2, log))
    await vi.waitUntil(() => answers.length === 2)
    expect(log).toEqual(['a', 'a', 'b', 'b'])
  })
})
