import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { join } from 'node:path'
import { Type } from 'typebox'
import { Value } from 'typebox/value'
import { ended } from '../support/running-service.ts'
import { ababa, type Beside, MOST_SPREAD } from './ababa.ts'
import { FULL, onEvening } from './evening.ts'
import { medianOf } from './median.ts'
import { rateOf } from './rate.ts'

const SERVICE = join(import.meta.dirname, 'speed-service.ts')
const Ports = Type.Object({ port: Type.Number(), barePort: Type.Number() })
type Ports = { readonly port: number; readonly barePort: number }

/** How long each step of the comparison takes, and how often all is done. */
interface Length {
  readonly warmMs: number
  readonly ms: number
  readonly rounds: number
}

export interface PageSpeed extends Beside {
  readonly page: string
  readonly bytes: number
}

export const ASKED = { cached: 0.8, uncached: 0.25 } as const

/**
 * How fast the pages that crowds ask for are answered, in a service of its own on a full evening: from memory and made
 * anew (each time by an address that nobody has asked before), beside a constant reply of the same bytes in the same
 * app with the same hooks, and beside a Fastify without any. Each page's answers are compared before times are.
 */
export async function pageSpeeds(length: Length, names?: readonly string[]): Promise<readonly PageSpeed[]> {
  return onEvening(FULL, async ({ night }, folder) => {
    const field = `/field/${night.id}`
    const named = {
      'the visitors’ page': `/tonight/${night.id}`,
      'the row': field,
      'the station page': `${field}/${night.stations[0]?.id}`,
      'the line page': `${field}/line`,
      'an object’s page': '/objects/m42',
    }
    const pages = Object.entries(named).filter(([name]) => names === undefined || names.includes(name))
    return served(folder, Object.values(named), async (ports) => {
      const speeds: PageSpeed[] = []
      for (const [page, path] of pages) speeds.push(await speedOf(ports, page, path, length))
      return speeds
    })
  })
}

/** Does something with the service in a process of its own, which has made each of these pages. */
export async function served<Answer>(
  folder: string,
  paths: readonly string[],
  work: (ports: Ports) => Promise<Answer>,
) {
  const child = spawn(process.execPath, ['--import', 'tsx', SERVICE, folder, ...paths], {
    stdio: ['ignore', 'pipe', 'inherit'],
  })
  try {
    const [line] = await once(child.stdout, 'data')
    return await work(Value.Parse(Ports, JSON.parse(String(line))))
  } finally {
    await ended(child, 'SIGTERM')
  }
}

let asked = 0

async function speedOf({ port, barePort }: Ports, page: string, path: string, length: Length): Promise<PageSpeed> {
  const query = `?page=${encodeURIComponent(path)}`
  const ways = {
    constant: { port, path: () => `/constant${query}` },
    cached: { port, path: () => path },
    uncached: { port, path: () => `${path}?lang=none-${asked++}` },
    bare: { port: barePort, path: () => `/bare${query}` },
  }
  const bodies = await Promise.all(Object.values(ways).map((way) => bodyAt(way.port, way.path())))
  if (new Set(bodies).size !== 1 || bodies[0] === '') throw new Error(`${page} is not the same on all ways`)
  const work = (way: keyof typeof ways) => () => rateOf(ways[way], length.warmMs, length.ms)
  const works = { cached: work('cached'), uncached: work('uncached'), bare: work('bare') }
  return { page, bytes: Buffer.byteLength(bodies[0] ?? ''), ...(await ababa(work('constant'), works, length.rounds)) }
}

async function bodyAt(port: number, path: string): Promise<string> {
  const answer = await fetch(`http://127.0.0.1:${port}${path}`)
  return answer.text()
}

/** A line for each page: the rates of the constant reply, and the ratios of all else to it. */
export async function benchPages(): Promise<void> {
  console.log('pages over 40 lines beside a constant reply of the same bytes in the same app with the same hooks:')
  for (const speed of await pageSpeeds({ warmMs: 500, ms: 1_500, rounds: 3 })) console.log(`  ${toldOf(speed)}`)
}

export function toldOf({ page, bytes, yardstick, spread, ratios }: PageSpeed): string {
  const ratio = (name: string): string => medianOf(ratios[name] ?? []).toFixed(2)
  return (
    `${page}, ${bytes} bytes: constant ${medianOf(yardstick).toFixed(0)} a second (spread ${(100 * spread).toFixed(0)} %` +
    `${spread > MOST_SPREAD ? ', TOO UNEVEN to tell' : ''}), cached ${ratio('cached')} of it (asked ${ASKED.cached}), ` +
    `made anew ${ratio('uncached')} (asked ${ASKED.uncached}), bare Fastify ${ratio('bare')}`
  )
}
