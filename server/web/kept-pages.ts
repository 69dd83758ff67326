import { createHash } from 'node:crypto'
import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import type { Clock } from '../clock.ts'
import type { Desk } from '../desk/desk.ts'
import { bytesFor, packable } from './packing.ts'
import { type KeptPage, type Place, pageShelf, type Use } from './page-shelf.ts'
import type { WhoOf } from './roles.ts'

declare module 'fastify' {
  interface FastifyContextConfig {
    /** True for a page that is answered from memory while nothing that it is made of has changed. */
    isKept?: boolean
  }
  interface FastifyReply {
    /** How the page may be used again; 'kept' until something in it says otherwise. */
    use: Use
  }
}

interface Needs {
  readonly desk: Pick<Desk, 'changes'>
  readonly clock: Clock
  readonly whoOf: WhoOf
}

const MINUTE_MS = 60_000
const TYPE = 'text/html; charset=utf-8'

/**
 * Answers the pages whose routes say `isKept` from memory. A page stands for one moment, which ends with the minute of
 * the evening's clock and with anything that is written to the database, whatever it is; and within the moment for one
 * address, Host, set of cookies and person. Whoever asks for a page that is just being made waits for that one.
 * Visitors' browsers may keep theirs and ask whether it still holds; pages of people who are signed in stay `no-store`.
 */
export function keepPages(app: FastifyInstance, { desk, clock, whoOf }: Needs): void {
  const find = pageShelf(() => `${desk.changes()} ${Math.floor(clock.now().getTime() / MINUTE_MS)}`)
  const places = new WeakMap<FastifyRequest, Place>()

  /** The place that a request is to fill; it is handed out once. */
  function placeOf(request: FastifyRequest): Place | undefined {
    const place = places.get(request)
    places.delete(request)
    return place
  }

  app.decorateReply('use', 'kept')
  // Before the request is looked at, since a page that is there was made for just this one.
  app.addHook('preValidation', async (request, reply) => {
    if (!request.routeOptions.config.isKept || request.method !== 'GET') return
    const found = find(keyOf(request, whoOf))
    if ('place' in found) return void places.set(request, found.place)
    const page = 'tag' in found.page ? found.page : await found.page
    if (page === null) return
    return isHeldThen(request, reply, page)
      ? reply.code(304).send()
      : reply.type(TYPE).send(bytesFor(request, reply, page))
  })
  app.addHook('onSend', async (request, reply, payload) => {
    const place = placeOf(request)
    if (!place) return payload
    if (typeof payload !== 'string' || !isPage(reply)) {
      place.empty()
      return payload
    }
    const page = pageFrom(payload)
    const use = reply.hasHeader('set-cookie') ? 'once' : reply.use
    place.fill(page, use)
    if (use !== 'kept' || !isHeldThen(request, reply, page)) return bytesFor(request, reply, page)
    reply.code(304).removeHeader('content-type')
    return ''
  })
  // Nobody waits for a page that never came to be sent.
  app.addHook('onResponse', async (request) => placeOf(request)?.empty())

  /** Lets a visitor's browser keep the page; true when it holds it already. */
  function isHeldThen(request: FastifyRequest, reply: FastifyReply, { tag }: KeptPage): boolean {
    if (whoOf(request) !== undefined) return false
    reply.headers({ etag: tag, 'cache-control': 'private, no-cache' })
    return tagsIn(request.headers['if-none-match']).includes(bareTag(tag))
  }
}

/** All that a page may depend on beside the moment: nothing else of a request is read. */
function keyOf(request: FastifyRequest, whoOf: WhoOf): string {
  const { host, cookie } = request.headers
  return JSON.stringify([request.url, host, cookie, whoOf(request)])
}

const isPage = (reply: FastifyReply): boolean => reply.statusCode === 200 && reply.getHeader('content-type') === TYPE

const pageFrom = (html: string): KeptPage => ({
  // As text, which goes out with its headers in one piece.
  ...packable(html),
  // Weak, since the packed page is another row of bytes.
  tag: `W/"${createHash('sha256').update(html).digest('base64url').slice(0, 22)}"`,
})

const tagsIn = (held = ''): readonly string[] => held.split(',').map(bareTag)
const bareTag = (tag: string): string => tag.trim().replace(/^W\//, '')
