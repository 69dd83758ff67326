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
/** Then whoever waits gives up. */
const LONGEST_WAIT_MS = 30_000
const KEY = /"key":"(act-\d+)"/g
/** So much of what came may be the first part of a key. */
const LONGEST_KEY = 40

/** Phones have addresses of their own, 127.0.1.1, 127.0.1.2 ...; 127.0.0.1 alone is the laptop's. */
export const phoneAddress = (i: number): string => `127.0.${1 + Math.floor(i / PER_NET)}.${1 + (i % PER_NET)}`

/** Opens a page's stream from an address; from then on it notes each act of a key like `act-100007` that it hears of, and tells all that comes. */
export function listen(
  { port, nightId, version }: Place,
  localAddress: string,
  heard: Heard,
  told: (text: string) => void = () => {},
): Promise<Socket> {
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
      told(String(text))
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

/** A phone of the field: it asks for pages, each answered by its status. */
export interface Visitor {
  see(path: string): Promise<number>
  leave(): void
}

/** A phone that has joined as operator: it also sends acts, and answers once the laptop has kept them. */
export interface Operator extends Visitor {
  act(draft: MarkDraft): Promise<void>
}

/** A phone that holds one line, over which what it asks goes one after the other. */
export const visitorAt = (place: Place, localAddress: string): Visitor =>
  visitorOn(place, lineOf(place.port, localAddress), '')

function visitorOn(place: Place, line: Line, cookie: string): Visitor {
  const see = async (path: string): Promise<number> => {
    const answer = await line.ask(get(place, path, cookie))
    return Number(/^HTTP\/1\.1 (\d{3}) /.exec(answer)?.[1])
  }
  return { see, leave: line.end }
}

/** Lets a phone in by the typed code. Its acts go over a line of their own, one after the other. */
export async function joinAs(place: Place, localAddress: string, code: string): Promise<Operator> {
  const line = lineOf(place.port, localAddress)
  const cookie = await joined(place, line, { secret: code, name: localAddress, role: 'operator' })
  const path = `/api/nights/${place.nightId}/marks`
  const visitor = visitorOn(place, lineOf(place.port, localAddress), cookie)
  return {
    see: visitor.see,
    async act(draft) {
      const answer = await line.ask(post(place, path, { marks: [draft] }, cookie))
      if (!answer.startsWith('HTTP/1.1 200 ')) throw new Error(`An act was not kept: ${answer}`)
    },
    leave() {
      line.end()
      visitor.leave()
    },
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

const get = ({ port }: Place, path: string, cookie: string): string =>
  `GET ${path} HTTP/1.1\r\nHost: 127.0.0.1:${port}\r\n${cookie === '' ? '' : `Cookie: ${cookie}\r\n`}\r\n`

interface Line {
  /** Sends a request after those before it and answers the whole answer. */
  ask(request: string): Promise<string>
  end(): void
}

/** A line of one phone, opened anew when the laptop has closed it, as it does with one that is not used. */
function lineOf(port: number, localAddress: string): Line {
  let socket: Socket | undefined
  let before: Promise<unknown> = Promise.resolve()
  async function askNow(text: string): Promise<string> {
    const held = socket && !socket.destroyed && !socket.readableEnded ? socket : undefined
    socket = held ?? (await opened(port, localAddress))
    return answerTo(text, socket).catch(async (error) => {
      if (!held || error.answer !== '') throw error
      // As browsers do: the laptop may have closed an idle line at the very moment at which it was used again.
      socket = await opened(port, localAddress)
      return answerTo(text, socket)
    })
  }
  return {
    ask(text) {
      const answer = before.then(() => askNow(text))
      before = answer.catch(() => {})
      return answer
    },
    end: () => socket?.destroy(),
  }
}

async function opened(port: number, localAddress: string): Promise<Socket> {
  const socket = connect({ port, host: '127.0.0.1', localAddress }).setEncoding('latin1')
  await once(socket, 'connect')
  // Whoever waits for an answer hears of the closing that follows.
  return socket.on('error', () => {})
}

const answerTo = (text: string, socket: Socket): Promise<string> =>
  new Promise((resolve, reject) => {
    let answer = ''
    const late = setTimeout(() => socket.destroy(), LONGEST_WAIT_MS)
    const take = (part: string): void => {
      answer += part
      if (!isWhole(answer)) return
      clearTimeout(late)
      socket.off('data', take).off('close', fail)
      resolve(answer)
    }
    const fail = (): void => {
      clearTimeout(late)
      reject(Object.assign(new Error(`The line was cut after: ${answer}`), { answer }))
    }
    socket.on('data', take).once('close', fail)
    socket.write(text)
  })

function isWhole(answer: string): boolean {
  const headEnds = answer.indexOf('\r\n\r\n')
  const [, length] = /\r\ncontent-length: (\d+)\r\n/i.exec(answer) ?? []
  return headEnds >= 0 && length !== undefined && answer.length >= headEnds + 4 + Number(length)
}
