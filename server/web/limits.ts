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

/** Hangs up on an address that holds too many connections; the laptop's own two addresses are not counted. */
export function keepConnectionsFew(app: FastifyInstance, { connections, connectionsPerAddress }: Limits): void {
  const open = new Map<string, number>()
  app.server.maxConnections = connections
  app.server.on('connection', (socket: Socket) => {
    const address = socket.remoteAddress
    if (address === undefined || isLoopbackAddress(address)) return
    const held = (open.get(address) ?? 0) + 1
    if (held > connectionsPerAddress) return void socket.destroy()
    open.set(address, held)
    socket.once('close', () => {
      const left = (open.get(address) ?? 1) - 1
      if (left > 0) open.set(address, left)
      else open.delete(address)
    })
  })
}
