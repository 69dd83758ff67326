import { parentPort } from 'node:worker_threads'
import { backUp } from '../../db/backup.ts'
import { lookAtCopy } from '../../db/copy-look.ts'
import type { CopyAnswer, CopyTask } from './copier.ts'

/** The thread for copies: does its tasks beside the service, so that no mark waits for a disk that is slow. */
async function answerOf(task: CopyTask): Promise<CopyAnswer> {
  try {
    if ('paths' in task) return { looks: task.paths.map(lookAtCopy) }
    return { path: await backUp(task.folder, task.name) }
  } catch (error) {
    return { trouble: isFull(error) ? 'full' : 'failed', why: String(error) }
  }
}

const FULL = ['ENOSPC', 'EDQUOT', 'SQLITE_FULL']
const isFull = (error: unknown): boolean =>
  error instanceof Error && 'code' in error && FULL.includes(String(error.code))

parentPort?.on('message', ({ id, task }: { readonly id: number; readonly task: CopyTask }) => {
  void answerOf(task).then((answer) => parentPort?.postMessage({ id, answer }))
})
