import { Worker } from 'node:worker_threads'
import { Fault } from '../errors.ts'
import type { Answered, AnswerOf, Job, JobKind } from './job-kinds.ts'

interface Waiting {
  resolve(value: unknown): void
  reject(error: unknown): void
}

export type Jobs = ReturnType<typeof jobQueue>

/**
 * Hands jobs to one worker thread and answers each with a promise. When the worker dies its jobs fail with a Fault, and
 * the next job finds a new worker.
 */
export function jobQueue(code: string, start: unknown) {
  const waiting = new Map<number, Waiting>()
  let worker: Worker | null = null
  let lastId = 0
  let isClosed = false

  function failAll(): void {
    for (const { reject } of waiting.values()) reject(new Fault('busy', 'fault.worker-stopped'))
    waiting.clear()
  }

  function settle(answer: Answered): void {
    const job = waiting.get(answer.id)
    waiting.delete(answer.id)
    if ('error' in answer) job?.reject(answer.error)
    else job?.resolve(answer.value)
  }

  function hire(): Worker {
    const hired = new Worker(code, { eval: true, workerData: start })
    hired.on('message', settle)
    hired.on('error', (error) => console.error('The worker failed:', error))
    hired.on('exit', () => {
      if (worker === hired) worker = null
      failAll()
    })
    return hired
  }

  return {
    /** Does a job in the worker; rejects with a Fault when the worker dies over it. */
    run<Kind extends JobKind>(job: Extract<Job, { kind: Kind }>): Promise<AnswerOf<Kind>> {
      return new Promise((resolve, reject) => {
        if (isClosed) return reject(new Fault('busy', 'fault.worker-stopped'))
        worker ??= hire()
        lastId += 1
        waiting.set(lastId, { resolve: resolve as Waiting['resolve'], reject })
        worker.postMessage({ id: lastId, job })
      })
    },
    async close(): Promise<void> {
      isClosed = true
      await worker?.terminate()
    },
  }
}
