import { Worker } from 'node:worker_threads'
import type { CopyLook } from '../../db/copy-look.ts'
import { bundleCopyWorker } from './bundle.ts'

export type CopyTrouble = 'full' | 'failed'
export type CopyTask = { readonly folder: string; readonly name: string } | { readonly paths: readonly string[] }
export interface CopyFailure {
  readonly trouble: CopyTrouble
  /** For whoever reads what the program writes to standard error. */
  readonly why: string
}
export type CopyAnswer = { readonly path: string } | { readonly looks: readonly CopyLook[] } | CopyFailure

/** Makes copies and looks at them, beside the service. */
export interface Copier {
  /** Copies the database of a data folder into its `backups/`; answers what went wrong, or null. */
  copy(folder: string, name: string): Promise<CopyFailure | null>
  /** What is in each of the files. */
  look(paths: readonly string[]): Promise<readonly CopyLook[]>
  /** Breaks off what is under way. */
  close(): Promise<void>
}

interface Answered {
  readonly id: number
  readonly answer: CopyAnswer
}

/** One thread, kept for the next task, since starting one holds marks up for some milliseconds; nobody else waits for it. */
export function threadCopier(): Copier {
  const waiting = new Map<number, (answer: CopyAnswer) => void>()
  let thread: Worker | null = null
  let lastId = 0
  let isClosed = false

  function settle({ id, answer }: Answered): void {
    waiting.get(id)?.(answer)
    waiting.delete(id)
    if (waiting.size === 0) thread?.unref()
  }

  function endAll(why: string): void {
    thread = null
    for (const id of [...waiting.keys()]) settle({ id, answer: { trouble: 'failed', why } })
  }

  function hire(code: string): Worker {
    const hired = new Worker(code, { eval: true, execArgv: [] })
    hired.on('message', settle)
    hired.on('error', (error) => endAll(String(error)))
    hired.on('exit', () => endAll(STOPPED.why))
    return hired
  }

  async function run(task: CopyTask): Promise<CopyAnswer> {
    const code = await bundleCopyWorker()
    if (isClosed) return STOPPED
    thread ??= hire(code)
    thread.ref()
    lastId += 1
    const id = lastId
    thread.postMessage({ id, task })
    return new Promise((resolve) => waiting.set(id, resolve))
  }

  return {
    async copy(folder, name) {
      const answer = await run({ folder, name })
      return 'trouble' in answer ? answer : null
    },
    async look(paths) {
      if (paths.length === 0) return []
      const answer = await run({ paths })
      return 'looks' in answer ? answer.looks : paths.map(() => UNREADABLE)
    },
    async close() {
      isClosed = true
      await thread?.terminate()
    },
  }
}

const STOPPED: CopyFailure = { trouble: 'failed', why: 'The thread was stopped' }
const UNREADABLE: CopyLook = { state: 'damaged', bytes: 0, schema: 0, nights: 0, marks: 0 }
