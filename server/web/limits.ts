import type { Socket } from 'node:net'
import rateLimit from '@fastify/rate-limit'
import type { FastifyInstance } from 'fastify'
import { isLoopbackAddress } from './hosts.ts'
import { type RoleOf, SESSION_COOKIE } from './roles.ts'

export interface Limits {
  /** Requests of one address in a window; a page with its assets is a burst. */
  readonly requests: { readonly max: number; readonly windowMs: number }
  /** Requests that bring marks, by session or, without one, by address. */
  readonly marks: { readonly max: number; readonly windowMs: number }
  /** Wrong PINs that cost nothing, and how long the wait may grow after them. */
  readonly signIn: { readonly freeTries: number; readonly longestWaitMs: number; readonly forgetMs: number }
  /** Live streams, one a page. */
  readonly live: { readonly perAddress: number; readonly inAll: number }
  readonly connections: number
  readonly connectionsPerAddress: number
}

export const DEFAULT_LIMITS: Limits = {
  requests: { max: 60, windowMs: 3_000 },
  marks: { max: 60, windowMs: 60_000 },
  signIn: { freeTries: 5, longestWaitMs: 60_000, forgetMs: 120_000 },
  live: { perAddress: 3, inAll: 2_000 },
  connections: 2_500,
  connectionsPerAddress: 20,
}

const KEPT_ADDRESSES = 5_000
/** Requests of one connection that wait for their answers; of a browser it is one. */
const MOST_UNANSWERED = 4
const SHUT_OUT_MS = 10_000

/** Slows down whoever asks too often, by address; the signed-in host is never kept waiting. */
export async function keepPace(app: FastifyInstance, { requests }: Limits, roleOf: RoleOf): Promise<void> {
  await app.register(rateLimit, {
    max: requests.max,
    timeWindow: requests.windowMs,
    cache: KEPT_ADDRESSES,
    allowList: (request) => roleOf(request) === 'host',
  })
}

/** The pace of a route that brings marks: counted by session, so that phones behind one address do not slow each other. */
export const markPace = ({ marks }: Limits) => ({
  max: marks.max,
  timeWindow: marks.windowMs,
  keyGenerator: (request: { cookies: Record<string, string | undefined>; ip: string }) =>
    request.cookies[SESSION_COOKIE] ?? request.ip,
})

/**
 * Hangs up on an address that holds too many connections, and for a while on one that asks on and on without waiting
 * for answers, as no browser does: a thousand such requests come in one piece. The laptop's own two addresses are not
 * counted.
 */
export function keepConnectionsFew(app: FastifyInstance, { connections, connectionsPerAddress }: Limits): void {
  const open = new Map<string, Set<Socket>>()
  const shutOut = new Set<string>()

  app.server.maxConnections = connections
  app.server.on('connection', (socket: Socket) => {
    const address = socket.remoteAddress
    if (address === undefined || isLoopbackAddress(address)) return
    const held = open.get(address) ?? new Set()
    if (held.size >= connectionsPerAddress || shutOut.has(address)) return void socket.destroy()
    open.set(address, held.add(socket))
    socket.once('close', () => {
      held.delete(socket)
      if (held.size === 0) open.delete(address)
    })
  })

  hearImpatient(app, ({ remoteAddress = '' }) => {
    if (!open.has(remoteAddress)) return
    shutOut.add(remoteAddress)
    setTimeout(() => shutOut.delete(remoteAddress), SHUT_OUT_MS).unref()
    for (const socket of open.get(remoteAddress) ?? []) socket.destroy()
  })
}

/** Tells of a connection on which too many requests wait for their answers, and leaves out what had come over one that is closed. */
function hearImpatient(app: FastifyInstance, impatient: (socket: Socket) => void): void {
  const waiting = new WeakMap<Socket, number>()
  app.server.prependListener('request', ({ socket }, response) => {
    const now = (waiting.get(socket) ?? 0) + 1
    waiting.set(socket, now)
    response.once('close', () => waiting.set(socket, (waiting.get(socket) ?? 1) - 1))
    if (now > MOST_UNANSWERED && !socket.destroyed) impatient(socket)
  })
  app.addHook('onRequest', async ({ raw }, reply) => {
    if (raw.socket.destroyed) reply.hijack()
  })
}
