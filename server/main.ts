import type { AddressInfo } from 'node:net'
import { networkInterfaces } from 'node:os'
import { pathToFileURL } from 'node:url'
import { buildApp } from './app.ts'
import { type Config, readConfig } from './config.ts'
import type { BackupStatus } from './desk/backups.ts'
import { createDesk } from './desk/create.ts'
import { Fault } from './errors.ts'
import { stayLean } from './memory.ts'
import { wentBackText } from './restore.ts'
import { phoneAddresses } from './web/addresses.ts'
import { allowedHosts } from './web/hosts.ts'
import { readWordTables } from './web/language.ts'
import { DEFAULT_LIMITS } from './web/limits.ts'

const LONGEST_STOP_MS = 2_000
/** What to do with address and PIN. */
const HOW_ON = 'Open that address in a browser on this laptop and sign in with the PIN. Ctrl+C stops the program.'
const PIN_AS_BEFORE = 'The PIN is the one of before. To set another, start with --pin and 6 to 12 digits.'
const STOP_SIGNALS = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const

interface Service {
  /** Where the host opens it on the laptop. */
  readonly url: string
  /** The PIN that this start has set; null when the one of before still holds. */
  readonly newPin: string | null
  close(): Promise<void>
}

/** Opens the data folder and listens: on the laptop's own address only, or on all of them when phones are let in. */
async function serve(config: Config): Promise<Service> {
  const desk = await createDesk({ ...config, backups: { second: config.backUpTo }, beforeBuild: sayFirstStart })
  try {
    sayCopies(desk.backups.status(), config.backUpTo)
    let port = config.port
    const hosts = allowedHosts(() => port, config.names)
    const words = readWordTables()
    const phonesWay = {
      isOpen: config.isLan,
      port: () => port,
      addresses: () => (config.isLan ? phoneAddresses(networkInterfaces()) : []),
    }
    const app = await buildApp({ desk, clock: config.clock, words, allowedHosts: hosts, phonesWay, isLogging: true })
    // Phones that all come back at once wait their turn; one beyond the backlog would be let in only at its next try.
    await app.listen({ port, host: config.isLan ? '0.0.0.0' : '127.0.0.1', backlog: DEFAULT_LIMITS.connections })
    port = portOf(app.server.address(), port)
    stayLean()
    const { newPin } = desk.sessions
    return { url: `http://127.0.0.1:${port}`, newPin, close: () => app.close().finally(() => desk.close()) }
  } catch (error) {
    await desk.close()
    throw error
  }
}

/** Says on standard error why the first start on a folder takes longer; address, PIN and what to do with them alone go to standard output. */
export const sayFirstStart = (): void => console.error('First start here: laying out the catalogue, a few seconds ...')

/** Says on standard error what came of a wish to go back to a copy, and that a second folder for copies cannot be used. */
function sayCopies({ wentBack, second }: BackupStatus, backUpTo: string | null): void {
  if (wentBack !== null) console.error(wentBackText(wentBack))
  if (second?.isOnSameDisk)
    console.error(`The second folder for copies, ${backUpTo}, lies on the disk of the data folder.`)
  if (!second?.trouble) return
  console.error(
    `The second folder for copies, ${backUpTo}, is missing or cannot be written. Copies go to the data folder.`,
  )
}

const portOf = (address: string | AddressInfo | null, asked: number): number =>
  typeof address === 'object' && address !== null ? address.port : asked

/** Stops on the first signal, within two seconds; a second signal ends the process at once. */
function stopOnSignals(service: Service): void {
  let isStopping = false
  for (const signal of STOP_SIGNALS) {
    process.on(signal, () => {
      if (isStopping) process.exit(1)
      isStopping = true
      setTimeout(() => process.exit(1), LONGEST_STOP_MS).unref()
      service.close().then(
        () => process.exit(0),
        () => process.exit(1),
      )
    })
  }
}

/** One plain sentence for what can go wrong at the start; null for what is a bug. */
export function startProblem(error: unknown, { port, folder }: Pick<Config, 'port' | 'folder'>): string | null {
  if (error instanceof Fault && error.key === 'fault.folder-in-use') {
    return `Another Duskrow is already using the data folder ${folder}. Stop it first, or choose another folder with --data.`
  }
  const code = error instanceof Error && 'code' in error ? error.code : undefined
  if (code === 'EADDRINUSE') return `Port ${port} is already in use. Stop what uses it, or choose another with --port.`
  if (code === 'SQLITE_FULL' || code === 'ENOSPC') {
    return `The disk is full on which the data folder ${folder} lies. Nothing is lost: make room there and start again.`
  }
  if (code === 'EACCES' || code === 'EPERM') return `No permission to use port ${port} or the data folder ${folder}.`
  return null
}

/** Runs the service from a command line: prints address, PIN and the way on once, and one sentence instead of a stack when it cannot start. */
export async function run(config: Config): Promise<void> {
  try {
    const service = await serve(config)
    stopOnSignals(service)
    console.log(`Duskrow is open at ${service.url}`)
    console.log(service.newPin === null ? PIN_AS_BEFORE : `PIN ${service.newPin}`)
    console.log(HOW_ON)
  } catch (error) {
    console.error(startProblem(error, config) ?? error)
    process.exitCode = 1
  }
}

/** The settings of a command line, or one sentence and the end of the process. */
export function configOrExit(args: readonly string[]): Config {
  try {
    return readConfig(args, process.env)
  } catch (error) {
    console.error(error instanceof Error ? error.message : error)
    return process.exit(1)
  }
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) await run(configOrExit(process.argv.slice(2)))
