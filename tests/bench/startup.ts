import { type ChildProcess, spawn } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { ended } from '../support/running-service.ts'
import { BEGINS } from './evening.ts'
import { medianOf } from './median.ts'

const ROOT = join(import.meta.dirname, '..', '..')
const PORT = 18_431
const ROUNDS = 3

interface Started {
  readonly lineMs: number
  readonly answerMs: number
  readonly memoryMb: number
}

/** Starts the service as a person would, waits for its address line and the board, and takes its memory (Linux: VmRSS). */
async function start(args: readonly string[]): Promise<Started> {
  const begun = performance.now()
  return running(['server/preflight/main.mjs', ...args, '--port', String(PORT)], async (child) => {
    const lineMs = performance.now() - begun
    const response = await fetch(`http://127.0.0.1:${PORT}/`)
    await response.text()
    if (!response.ok) throw new Error(`The board answered ${response.status}`)
    return { lineMs, answerMs: performance.now() - begun - lineMs, memoryMb: residentMb(child) }
  })
}

type Work<Answer> = (child: ChildProcess) => Promise<Answer>

/** Does something with a process of the service once it has named its address, and stops it. */
async function running<Answer>(args: readonly string[], work: Work<Answer>): Promise<Answer> {
  const child = spawn(process.execPath, args, { cwd: ROOT })
  try {
    await lineOf(child, /http:\/\//)
    return await work(child)
  } finally {
    await ended(child, 'SIGTERM')
  }
}

/** Does something with the service on a data folder, in the middle of its evening. */
export const serving = <Answer>(folder: string, port: number, work: Work<Answer>): Promise<Answer> =>
  running(['--import', 'tsx', 'server/main.ts', '--data', folder, '--port', String(port), '--clock', BEGINS], work)

/** Asked of the start on an existing folder until the first page, and of the memory on the demo night. */
const ASKED_OF_START = { pageMs: 1_500, memoryMb: 250 } as const

/** Start-up time and memory of the demo, and of the service on a folder that has been used before: medians of three. */
export async function benchStartup(): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'duskrow-bench-'))
  try {
    await report('demo, catalogue and programme built anew', ['seed-demo/main.ts'])
    await start(['server/main.ts', '--data', folder])
    await report('start on an existing folder', ['server/main.ts', '--data', folder])
    console.log(
      `  asked: the first page of a start on an existing folder within ${ASKED_OF_START.pageMs} ms, memory on the demo night under ${ASKED_OF_START.memoryMb} MB`,
    )
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

async function report(name: string, args: readonly string[]): Promise<void> {
  const rounds: Started[] = []
  for (let round = 0; round < ROUNDS; round++) rounds.push(await start(args))
  const median = (of: (round: Started) => number): string => medianOf(rounds.map(of)).toFixed(0)
  console.log(
    `${name}: ${median((r) => r.lineMs)} ms to the address line, ${median((r) => r.answerMs)} ms more to the board, ` +
      `${median((r) => r.memoryMb)} MB resident`,
  )
}

/** Waits for a line of a process that it starts up. */
export function lineOf(child: ChildProcess, pattern: RegExp): Promise<void> {
  return new Promise((done, fail) => {
    let text = ''
    child.stdout?.on('data', (chunk: Buffer) => {
      text += chunk.toString()
      if (pattern.test(text)) done()
    })
    child.once('close', () => fail(new Error(`The service stopped before it named its address: ${text}`)))
  })
}

/** Memory of a process (Linux: VmRSS). */
export function residentMb(child: ChildProcess): number {
  const status = readFileSync(`/proc/${child.pid}/status`, 'utf8')
  return Number(/VmRSS:\s+(\d+) kB/.exec(status)?.[1] ?? Number.NaN) / 1024
}
