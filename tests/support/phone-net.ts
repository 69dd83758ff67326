import { Agent, type ClientRequest, type IncomingMessage, type RequestOptions, request } from 'node:http'
import type { Stream } from '../../views/scripts/live.ts'

/** Made once, since thousands are thrown. */
const OUT_OF_REACH = new Error('Out of reach')

/** How a phone is out of reach: its connections break and no new one is made, or nothing goes through until it is back. */
type Away = 'cut' | 'silent'

interface NetNeeds {
  readonly port: number
  /** The name by which the phone calls the laptop. */
  readonly host: string
  /** Where the phone is, so that the laptop does not take it for itself. */
  readonly address: string
  readonly cookie: string
}

type Heard = (event: { readonly data: string; readonly lastEventId: string }) => void

export type PhoneNet = ReturnType<typeof phoneNet>

/** The network of one phone: real connections to a laptop, which a test may break. */
export function phoneNet({ port, host, address, cookie }: NetNeeds) {
  const agent = new Agent({ keepAlive: true, localAddress: address })
  const open = new Set<ClientRequest>()
  const back = new Set<() => void>()
  let away: Away | null = null
  /** True where a box on the way lets no stream through. */
  let keepsStreams = false
  const counts = { requests: 0, streams: 0 }

  const options = (path: string, headers: Readonly<Record<string, string>>): RequestOptions => ({
    host: '127.0.0.1',
    port,
    path,
    agent,
    headers: { host: `${host}:${port}`, origin: `http://${host}:${port}`, cookie, ...headers },
  })

  /** Resolves once what is sent goes through: at once, or when a phone that is not heard is back. */
  const through = (): Promise<void> =>
    away === 'silent' ? new Promise((resolve) => back.add(resolve)) : Promise.resolve()

  /** One request, as `fetch` makes it. */
  async function fetch(path: string, init: RequestInit = {}): Promise<Response> {
    await through()
    if (away === 'cut' || init.signal?.aborted) throw OUT_OF_REACH
    counts.requests++
    return new Promise((resolve, reject) => {
      const headers: Record<string, string> = init.method === 'POST' ? { 'content-type': 'application/json' } : {}
      const asked = request({ ...options(path, headers), method: init.method ?? 'GET' }, (answer) => {
        textOf(answer).then((text) => resolve(new Response(text, { status: answer.statusCode ?? 500 })), reject)
      })
      hold(asked)
      asked.once('error', reject)
      init.signal?.addEventListener('abort', () => asked.destroy(OUT_OF_REACH), { once: true })
      asked.end(init.body ?? '')
    })
  }

  /** A stream of events, as `EventSource` reads it. */
  function stream(path: string): Stream {
    const heard = new Map<string, Heard>()
    const say = (name: string, data = '', lastEventId = ''): void => heard.get(name)?.({ data, lastEventId })
    let asked: ClientRequest | null = null
    let isClosed = false

    async function connect(): Promise<void> {
      await through()
      if (isClosed) return
      if (away === 'cut' || keepsStreams) return say('error')
      counts.streams++
      asked = request(options(path, { accept: 'text/event-stream' }), (answer) => {
        if (answer.statusCode === 200) answer.setEncoding('utf8').on('data', eventsOf(say))
        else asked?.destroy()
      })
      hold(asked)
      asked.on('error', () => {}).once('close', () => isClosed || say('error'))
      asked.end()
    }
    void connect()
    return {
      addEventListener: (name, run) => void heard.set(name, run),
      close() {
        isClosed = true
        asked?.destroy()
      },
    }
  }

  function hold(asked: ClientRequest): void {
    open.add(asked)
    asked.once('close', () => open.delete(asked))
  }

  return {
    fetch,
    stream,
    counts,
    /** Takes the phone out of reach, or brings it back. */
    go(how: Away | null): void {
      away = how
      for (const each of [...open]) {
        if (how === 'cut') each.destroy(OUT_OF_REACH)
        else if (how === 'silent') each.socket?.pause()
        else each.socket?.resume()
      }
      if (how !== null) return
      for (const resolve of back) resolve()
      back.clear()
    },
    keepStreams(isSo: boolean): void {
      keepsStreams = isSo
    },
    end(): void {
      for (const each of [...open]) each.destroy()
      agent.destroy()
    },
  }
}

async function textOf(answer: IncomingMessage): Promise<string> {
  let text = ''
  for await (const part of answer.setEncoding('utf8')) text += part
  return text
}

/** Reads the frames of a stream as they come, in parts of any size. */
function eventsOf(said: (name: string, data: string, id: string) => void): (part: string) => void {
  let rest = ''
  let lastId = ''
  return (part) => {
    const frames = (rest + part).split('\n\n')
    rest = frames.pop() ?? ''
    for (const frame of frames) {
      const field = (name: string) => new RegExp(`^${name}: ?(.*)$`, 'm').exec(frame)?.[1]
      lastId = field('id') ?? lastId
      const [name, data] = [field('event') ?? 'message', field('data')]
      if (data !== undefined) said(name, data, lastId)
    }
  }
}
