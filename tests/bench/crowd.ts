import { once } from 'node:events'
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

/** Lets a phone in by the typed code. It then holds one line, over which its acts go one after the other. */
export async function joinAs(place: Place, localAddress: string, code: string): Promise<Operator> {
  const line = lineOf(place.port, localAddress)
  const cookie = await joined(place, line, { secret: code, name: localAddress, role: 'operator' })
  const path = `/api/nights/${place.nightId}/marks`
  let before: Promise<unknown> = Promise.resolve()
  return {
    act(draft) {
      const sent = before.then(async () => {
        const answer = await line.ask(post(place, path, { marks: [draft] }, cookie))
        if (!answer.startsWith('HTTP/1.1 200 ')) throw new Error(`An act was not kept: ${answer}`)
      })
      before = sent.catch(() => {})
      return sent
    },
    leave: line.end,
  }
}

/** The cookie of a phone that has been let in. */
async function joined(place: Place, line: Line, body: object): Promise<string> {
  const answer = await line.ask(post(place, '/api/join', body))
  const [, cookie] = /\r\nset-cookie: ([^;\r]+)/i.exec(answer) ?? []
  if (cookie === undefined) throw new Error(`The phone was not let in: ${answer}`)
  return cookie
}

/** Written by hand, since forty clients of a library would take more of the shared cores than the service does. */
function post({ port }: Place, path: string, body: object, cookie = ''): string {
  const text = JSON.stringify(body)
  const head = [
    `POST ${path} HTTP/1.1`,
    `Host: 127.0.0.1:${port}`,
    `Origin: http://127.0.0.1:${port}`,
    ...(cookie === '' ? [] : [`Cookie: ${cookie}`]),
    'Content-Type: application/json',
    `Content-Length: ${Buffer.byteLength(text)}`,
  ]
  return `${head.join('\r\n')}\r\n\r\n${text}`
}

interface Line {
  /** Sends a request and answers the whole answer; only one at a time. */
  ask(request: string): Promise<string>
  end(): void
}

/** A line of one phone, opened anew when the laptop has closed it, as it does with one that is not used. */
function lineOf(port: number, localAddress: string): Line {
  let socket: Socket | undefined
  return {
    async ask(text) {
      if (socket === undefined || socket.destroyed || socket.readableEnded) socket = await opened(port, localAddress)
      return answerTo(text, socket)
    },
    end: () => socket?.destroy(),
  }
}

async function opened(port: number, localAddress: string): Promise<Socket> {
  const socket = connect({ port, host: '127.0.0.1', localAddress }).setEncoding('latin1')
  await once(socket, 'connect')
  return socket
}

const answerTo = (text: string, socket: Socket): Promise<string> =>
  new Promise((resolve, reject) => {
    let answer = ''
    const take = (part: string): void => {
      answer += part
      if (!isWhole(answer)) return
      socket.off('data', take).off('close', fail)
      resolve(answer)
    }
    const fail = (): void => reject(new Error(`The line was cut after: ${answer}`))
    socket.on('data', take).once('close', fail)
    socket.write(text)
  })

function isWhole(answer: string): boolean {
  const headEnds = answer.indexOf('\r\n\r\n')
  const [, length] = /\r\ncontent-length: (\d+)\r\n/i.exec(answer) ?? []
  return headEnds >= 0 && length !== undefined && answer.length >= headEnds + 4 + Number(length)
}
