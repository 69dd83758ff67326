import { type ChildProcess, spawn } from 'node:child_process'
import { createServer } from 'node:net'
import { join } from 'node:path'

const ROOT = join(import.meta.dirname, '../..')
const START_MS = 90_000

export interface Demo {
  readonly url: string
  readonly pin: string
  stop(): Promise<void>
}

/** Starts the demo as its own process on a free port, with more flags if asked, and answers when it is open. */
export const startDemo = (...flags: string[]): Promise<Demo> => startService('seed-demo/main.ts', ...flags)

/** The same for any program of the service. */
export async function startService(program: string, ...flags: string[]): Promise<Demo> {
  const port = await freePort()
  const child = spawn(process.execPath, ['--import', 'tsx', program, '--port', String(port), ...flags], {
    cwd: ROOT,
    stdio: ['ignore', 'pipe', 'inherit'],
  })
  const said = await saidAtStart(child)
  return { ...said, stop: () => ended(child) }
}

function saidAtStart(child: ChildProcess): Promise<{ url: string; pin: string }> {
  return new Promise((resolve, reject) => {
    let text = ''
    const late = setTimeout(() => reject(new Error(`The service did not start: ${text}`)), START_MS)
    child.once('exit', (code) => reject(new Error(`The service ended with ${code}: ${text}`)))
    child.stdout?.on('data', (part) => {
      text += String(part)
      const url = /(http:\/\/\S+)/.exec(text)?.[1]
      const pin = /PIN (\d+)/.exec(text)?.[1]
      if (!url || !pin) return
      clearTimeout(late)
      resolve({ url, pin })
    })
  })
}

function ended(child: ChildProcess): Promise<void> {
  return new Promise((resolve) => {
    child.once('exit', () => resolve())
    child.kill('SIGTERM')
  })
}

function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const probe = createServer()
    probe.once('error', reject)
    probe.listen(0, '127.0.0.1', () => {
      const address = probe.address()
      probe.close(() => (address instanceof Object ? resolve(address.port) : reject(new Error('No free port'))))
    })
  })
}
