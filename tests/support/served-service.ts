import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import { readdirSync, readlinkSync } from 'node:fs'
import { join } from 'node:path'
import { Type } from 'typebox'
import { Value } from 'typebox/value'
import type { Place } from '../bench/crowd.ts'
import { lineOf, residentMb } from '../bench/startup.ts'

const ROOT = join(import.meta.dirname, '../..')
const PRELOAD = join(import.meta.dirname, 'loop-delay.ts')

/** How late the event loop came to what was due, of so many looks; ten milliseconds are the looks' own pace. */
export type LoopDelay = Readonly<Record<'p50Ms' | 'p99Ms' | 'maxMs' | 'count', number>>
const LoopDelay = Type.Object({
  p50Ms: Type.Number(),
  p99Ms: Type.Number(),
  maxMs: Type.Number(),
  count: Type.Number(),
})

/** The service as a process of its own, looked at from outside (Linux: /proc). */
export interface Served {
  readonly port: number
  residentMb(): number
  /** Of its descriptors, sockets and everything else. */
  openFiles(): { readonly sockets: number; readonly others: number }
  /** Since it was last asked to begin anew. */
  loopDelay(then?: 'anew'): Promise<LoopDelay>
  stop(): Promise<void>
}

/** Starts the service on a data folder. */
export async function serveFolder(folder: string, port: number, ...flags: readonly string[]): Promise<Served> {
  const program = ['server/main.ts', '--data', folder, '--port', String(port), ...flags]
  const child = spawn(process.execPath, ['--import', 'tsx', '--import', PRELOAD, ...program], {
    cwd: ROOT,
    stdio: ['ignore', 'pipe', 'inherit', 'ipc'],
  })
  await lineOf(child, /http:\/\//)
  return {
    port,
    residentMb: () => residentMb(child),
    openFiles: () => openFiles(child),
    loopDelay: (then) => toldDelay(child, then),
    async stop() {
      const ended = once(child, 'close')
      child.kill('SIGTERM')
      await ended
    },
  }
}

const Answer = Type.Object({ version: Type.String() })

/** Where phones find a night of the service, as it is now. */
export async function placeOf({ port }: Pick<Served, 'port'>, nightId: string): Promise<Place> {
  const answer = await fetch(`http://127.0.0.1:${port}/api/nights/${nightId}/changes`)
  return { port, nightId, version: Value.Parse(Answer, await answer.json()).version }
}

async function toldDelay(child: ChildProcess, then?: 'anew'): Promise<LoopDelay> {
  const told = once(child, 'message')
  child.send(then === 'anew' ? 'loop-delay anew' : 'loop-delay')
  const [delay] = await told
  return Value.Parse(LoopDelay, delay)
}

function openFiles({ pid }: ChildProcess): { sockets: number; others: number } {
  const folder = `/proc/${pid}/fd`
  const ends = readdirSync(folder).map((name) => endOf(join(folder, name)))
  const sockets = ends.filter((end) => end.startsWith('socket:')).length
  return { sockets, others: ends.filter((end) => end !== '').length - sockets }
}

/** What a descriptor leads to; nothing for one that has been closed meanwhile. */
function endOf(path: string): string {
  try {
    return readlinkSync(path)
  } catch {
    return ''
  }
}
