import { existsSync, readFileSync } from 'node:fs'
import { join, resolve } from 'node:path'
import { parseArgs } from 'node:util'
import { type Clock, realClock, rehearsalClock } from './clock.ts'
import { chosenFolder } from './preflight/folder.mjs'

const ROOT = join(import.meta.dirname, '..')
const FASTEST = 3_600

export interface Config {
  readonly folder: string
  readonly port: number
  /** True lets phones in; false answers the laptop alone. */
  readonly isLan: boolean
  /** One more name by which the laptop may be called. */
  readonly names: readonly string[]
  readonly clock: Clock
  /** The host's PIN as digits; null keeps the one that the data folder has. */
  readonly pin: string | null
  /** A second folder for the copies of the database, such as a USB stick, or null. */
  readonly backUpTo: string | null
  readonly version: string
  readonly commit: string
}

/** A setting that cannot be used, in one sentence for whoever typed it. */
const unusable = (sentence: string): Error => new Error(sentence)

/** Reads every flag and environment variable once; throws one plain sentence when a setting is unusable. */
export function readConfig(args: readonly string[], env: NodeJS.ProcessEnv, platform = process.platform): Config {
  const flags = readFlags(args)
  return {
    folder: chosenFolder(flags.data, env, platform),
    port: wholeNumber('--port', flags.port ?? '8080', 65_535),
    isLan: flags.lan ?? false,
    names: flags.name === undefined ? [] : [hostName(flags.name)],
    clock: clockOf(flags.clock, flags.speed),
    pin: pinOf(flags.pin),
    backUpTo: flags['backup-to'] === undefined ? null : resolve(flags['backup-to']),
    version: version(),
    commit: commit(),
  }
}

function readFlags(args: readonly string[]) {
  const text = { type: 'string' } as const
  const options = {
    data: text,
    port: text,
    lan: { type: 'boolean' },
    name: text,
    clock: text,
    speed: text,
    pin: text,
    'backup-to': text,
  } as const
  try {
    return parseArgs({ args: [...args], options, strict: true }).values
  } catch (error) {
    throw unusable(error instanceof Error ? error.message : 'The flags cannot be read.')
  }
}

function wholeNumber(name: string, text: string, max: number): number {
  const value = Number(text)
  if (/^\d{1,9}$/.test(text) && value <= max) return value
  throw unusable(`${name} must be a whole number from 0 to ${max}, not "${text}".`)
}

function hostName(text: string): string {
  if (/^[A-Za-z0-9]([A-Za-z0-9.-]{0,251}[A-Za-z0-9])?$/.test(text)) return text
  throw unusable(`--name must be a host name without a port, not "${text}".`)
}

function clockOf(clock: string | undefined, speed: string | undefined): Clock {
  if (clock === undefined && speed === undefined) return realClock()
  const startsAt = clock === undefined ? new Date() : new Date(clock)
  if (Number.isNaN(startsAt.getTime()) || (clock !== undefined && !/(Z|[+-]\d{2}:\d{2})$/.test(clock))) {
    throw unusable(`--clock must be an instant such as 2026-11-14T17:20:00Z, not "${clock}".`)
  }
  const rate = Number(speed ?? 1)
  if (!(rate > 0 && rate <= FASTEST)) throw unusable(`--speed must be above 0 and at most ${FASTEST}, not "${speed}".`)
  return rehearsalClock(startsAt, rate)
}

function pinOf(text: string | undefined): string | null {
  if (text === undefined) return null
  if (/^\d{6,12}$/.test(text)) return text
  throw unusable('--pin must be 6 to 12 digits.')
}

function version(): string {
  const text: unknown = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8'))
  return typeof text === 'object' && text !== null && 'version' in text ? String(text.version) : 'unknown'
}

/** The commit of this copy, `unknown` where it is no checkout. */
function commit(): string {
  const file = (name: string): string => {
    const path = join(ROOT, '.git', name)
    return existsSync(path) ? readFileSync(path, 'utf8').trim() : ''
  }
  const head = file('HEAD')
  const reference = head.startsWith('ref: ') ? head.slice(5) : ''
  const packed = () => new RegExp(`^([0-9a-f]{40}) ${reference}$`, 'm').exec(file('packed-refs'))?.[1]
  return (reference ? file(reference) || packed() : head) || 'unknown'
}
