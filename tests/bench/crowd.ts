import { Agent, type IncomingMessage, request } from 'node:http'
import { connect, type Socket } from 'node:net'
import type { MarkDraft } from '../../server/tours/mark.ts'

/** Where the service is, and the night that the phones are at. */
export interface Place {
  readonly port: number
  readonly nightId: string
  /** The version of the night at which the pages were made. */
  readonly version: string
}

/** When the last page heard of each act, by its key, and how many have. */
export interface Heard {
  readonly lastAtMs: Map<string, number>
  readonly times: Map<string, number>
}

const PER_NET = 250
const KEY = /"key":"(act-\d+)"/g
/** So much of what came may be the first part of a key. */
const LONGEST_KEY = 40

/** Phones have addresses of their own, 127.0.1.1, 127.0.1.2 ...; 127.0.0.1 alone is the laptop's. */
export const phoneAddress = (i: number): string => `127.0.${1 + Math.floor(i / PER_NET)}.${1 + (i % PER_NET)}`

/** Opens a page's stream from an address; from then on it notes each act of a key like `act-100007` that it hears of. */
export function listen({ port, nightId, version }: Place, localAddress: string, heard: Heard): Promise<Socket> {
  return new Promise((resolve, reject) => {
    const socket = connect({ port, host: '127.0.0.1', localAddress }).setEncoding('latin1')
    socket.write(`GET /api/nights/${nightId}/live?since=${version} HTTP/1.1\r\nHost: 127.0.0.1:${port}\r\n\r\n`)
    socket.once('error', reject)
    socket.once('data', (head) =>
      String(head).startsWith('HTTP/1.1 200') ? resolve(socket) : reject(new Error(`No stream: ${head}`)),
    )
    let rest = ''
    socket.on('data', (text) => {
      rest = noted(rest + text, heard, performance.now())
    })
  })
}

/** Notes the acts in a text and answers its end, in which another may begin. */
function noted(text: string, { lastAtMs, times }: Heard, atMs: number): string {
  let end = 0
  for (const { 0: all, 1: key = '', index } of text.matchAll(KEY)) {
    end = index + all.length
    lastAtMs.set(key, atMs)
    times.set(key, (times.get(key) ?? 0) + 1)
  }
  return text.slice(Math.max(end, text.length - LONGEST_KEY))
}

/** A phone that has joined as operator: it sends acts, and answers once the laptop has kept them. */
export interface Operator {
  act(draft: MarkDraft): Promise<void>
  leave(): void
}

/** Lets a phone in by the typed code. */
export async function joinAs(place: Place, localAddress: string, code: string): Promise<Operator> {
  const agent = new Agent({ keepAlive: true, localAddress })
  const post = (path: string, body: object, cookie = '') => postTo({ ...place, agent, cookie }, path, body)
  const joined = await post('/api/join', { secret: code, name: localAddress, role: 'operator' })
  const cookie = joined.headers['set-cookie']?.[0]?.split(';')[0] ?? ''
  if (joined.statusCode !== 201) throw new Error(`The phone was not let in: ${joined.statusCode}`)
  return {
    async act(draft) {
      const { statusCode } = await post(`/api/nights/${place.nightId}/marks`, { marks: [draft] }, cookie)
      if (statusCode !== 200) throw new Error(`An act was not kept: ${statusCode}`)
    },
    leave: () => agent.destroy(),
  }
}

type Line = Place & { readonly agent: Agent; readonly cookie: string }

function postTo({ port, agent, cookie }: Line, path: string, body: object): Promise<IncomingMessage> {
  const text = JSON.stringify(body)
  const headers = {
    host: `127.0.0.1:${port}`,
    origin: `http://127.0.0.1:${port}`,
    cookie,
    'content-type': 'application/json',
    'content-length': Buffer.byteLength(text),
  }
  return new Promise((resolve, reject) => {
    const asked = request({ port, host: '127.0.0.1', path, method: 'POST', agent, headers }, (answer) => {
      answer.resume().once('end', () => resolve(answer))
    })
    asked.once('error', reject)
    asked.end(text)
  })
}
