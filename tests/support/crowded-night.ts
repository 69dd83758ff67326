import { Agent, request } from 'node:http'
import { north } from '../../seed-demo/north.ts'
import { seedEvening } from '../../seed-demo/seed.ts'
import type { MarkDraft } from '../../server/tours/mark.ts'
import { SESSION_COOKIE } from '../../server/web/roles.ts'
import { freshFolder, openDesk } from './desk-folder.ts'

/** In the middle of the demo night, for the service's `--clock`. */
export const EVENING = '2026-12-17T17:20:00Z'

/** A phone that has joined; it stays joined over every restart. */
export interface JoinedPhone {
  readonly name: string
  readonly cookie: string
  /** Its own, since the laptop counts connections and requests by address. */
  readonly address: string
}

export interface CrowdedNight {
  readonly folder: string
  readonly nightId: string
  readonly stationIds: readonly string[]
  readonly phones: readonly JoinedPhone[]
}

/** A data folder with the demo night in it, which so many phones have joined as operators. */
export async function crowdedNight(phones: number): Promise<CrowdedNight> {
  const folder = freshFolder()
  const desk = await openDesk(folder)
  const { id: nightId, stations } = seedEvening(desk, north)
  const { token: secret } = desk.joins.codes(nightId)
  const joined = Array.from({ length: phones }, (_, i): JoinedPhone => {
    const [name, address] = [`Phone ${i}`, `127.0.${1 + Math.floor(i / 250)}.${1 + (i % 250)}`]
    const { token } = desk.joins.join({ secret, name, role: 'operator', phoneMs: null, address })
    return { name, address, cookie: `${SESSION_COOKIE}=${token}` }
  })
  await desk.close()
  return { folder, nightId, stationIds: stations.map(({ id }) => id), phones: joined }
}

/** An act as people at the telescopes make them: mostly showings, and some people counted. */
export function actOf(key: string, i: number, { stationIds }: Pick<CrowdedNight, 'stationIds'>): MarkDraft {
  if (i % 3 === 0) {
    return { key, kind: 'counted', stationId: null, payload: { adults: 1 + (i % 4), children: i % 3 }, secondsAgo: 0 }
  }
  const stationId = stationIds[i % stationIds.length] ?? null
  return { key, kind: 'showing', stationId, payload: { targetKey: 'saturn', aim: 'whole' }, secondsAgo: 0 }
}

interface Answer {
  readonly status: number
  readonly text: string
}

/** A phone's line to the service, kept open between what it sends; whatever breaks it rejects what is on its way. */
export function lineOf(url: string, { address, cookie }: JoinedPhone) {
  const agent = new Agent({ keepAlive: true, maxSockets: 1 })
  const { port } = new URL(url)
  return {
    post: (path: string, type: string, body: string): Promise<Answer> =>
      new Promise((resolve, reject) => {
        const headers = { origin: url, cookie, 'content-type': type, 'content-length': Buffer.byteLength(body) }
        const where = { host: '127.0.0.1', port, path, localAddress: address, method: 'POST', headers, agent }
        const asked = request(where, (answer) => {
          let text = ''
          answer.setEncoding('utf8')
          answer.on('data', (part) => (text += part))
          answer.once('end', () => resolve({ status: answer.statusCode ?? 0, text }))
          answer.once('error', reject)
        })
        asked.once('error', reject)
        asked.end(body)
      }),
    leave: () => agent.destroy(),
  }
}
