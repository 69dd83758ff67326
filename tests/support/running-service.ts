import { type ChildProcess, spawn } from 'node:child_process'
import { join } from 'node:path'

const ROOT = join(import.meta.dirname, '../..')

/** The service as a process of its own, as a host runs it. */
export interface RunningService {
  readonly child: ChildProcess
  readonly url: string
  /** What it said about the PIN. */
  readonly pinLine: string
}

/** How it is run: what stands before Node on the command line, and which TypeScript Node loads before the service. */
interface HowToRun {
  readonly under?: readonly string[]
  readonly loading?: string
}

/** Starts the service on a folder as `npm start` does, at a port that is free; answers the process at once and its address when it is open. */
export function startService(folder: string, flags: readonly string[] = [], { under = [], loading }: HowToRun = {}) {
  const before = loading === undefined ? [] : ['--import', 'tsx', '--import', loading]
  const start = ['server/preflight/main.mjs', 'server/main.ts', '--data', folder, '--port', '0', ...flags]
  const [program = '', ...args] = [...under, process.execPath, ...before, ...start]
  const child = spawn(program, args, { cwd: ROOT, stdio: ['ignore', 'pipe', 'inherit'] })
  const open = new Promise<RunningService>((resolve, reject) => {
    let said = ''
    child.stdout.on('data', (text) => {
      said += text
      const [, url, pinLine] = /^Duskrow is open at (\S+)\n(.*PIN.*)\n/.exec(said) ?? []
      if (url !== undefined && pinLine !== undefined) resolve({ child, url, pinLine })
    })
    child.once('error', reject)
    child.once('close', () => reject(new Error(`The service ended before it was open; it said: ${said}`)))
  })
  // Whoever kills it while it opens does not wait for its address.
  open.catch(() => {})
  return { child, open }
}

/** Ends a process, as an empty battery does unless another signal is named, and waits until all of it has gone. */
export async function ended(child: ChildProcess, signal: NodeJS.Signals = 'SIGKILL'): Promise<void> {
  const isGone = child.exitCode !== null || child.signalCode !== null
  const gone = new Promise<void>((resolve) => child.once('close', () => resolve()))
  child.kill(signal)
  if (!isGone) await gone
}
