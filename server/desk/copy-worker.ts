import { constants, setPriority } from 'node:os'
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

/** Lets marks go first where both want the processor. Only Linux does so for one thread; elsewhere the whole service would step back. */
function stepBack(): void {
  if (process.platform !== 'linux') return
  try {
    setPriority(constants.priority.PRIORITY_BELOW_NORMAL)
  } catch {
    // A copy that is made in haste is still a copy.
  }
}

stepBack()
parentPort?.on('message', ({ id, task }: { readonly id: number; readonly task: CopyTask }) => {
  void answerOf(task).then((answer) => parentPort?.postMessage({ id, answer }))
})
