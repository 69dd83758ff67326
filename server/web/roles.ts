import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import type { Desk, Who } from '../desk/desk.ts'
import { Fault } from '../errors.ts'
import { isLoopbackAddress, isLoopbackHost } from './hosts.ts'
import { type AnswerTrouble, isApi } from './problems.ts'

const ROLES = ['visitor', 'operator', 'helper', 'host-phone', 'host'] as const
export type Role = (typeof ROLES)[number]
export type RoleOf = (request: FastifyRequest) => Role

export const SESSION_COOKIE = 'duskrow-session'

declare module 'fastify' {
  interface FastifyContextConfig {
    /** The least that someone must be to use the route; every route says it. */
    role?: Role
  }
}

/** Who may use a route that asks for a role. */
const ALLOWED: Readonly<Record<Role, readonly Role[]>> = {
  visitor: ROLES,
  operator: ['operator', 'helper', 'host-phone', 'host'],
  helper: ['helper', 'host-phone', 'host'],
  'host-phone': ['host-phone', 'host'],
  host: ['host'],
}

/** True for a request that the laptop makes to itself: by its own address and under its own name. */
export const isAtLaptop = (request: FastifyRequest): boolean =>
  isLoopbackAddress(request.socket.remoteAddress) && isLoopbackHost(request.headers.host)

/** Tells who is asking, once for each request; undefined for a visitor. */
export type WhoOf = (request: FastifyRequest) => Who | undefined

/** The host by a living session, at the laptop only; a phone by a living session that the host has let in, on its own night only. */
export function whoTeller(desk: Pick<Desk, 'sessions'>): WhoOf {
  // The door, the limits and the route ask in turn; it is one answer.
  const told = new WeakMap<FastifyRequest, { readonly who: Who | undefined }>()

  function tell(request: FastifyRequest): Who | undefined {
    const token = request.cookies[SESSION_COOKIE]
    const who = token ? desk.sessions.who(token) : undefined
    if (who?.role === 'host') return isAtLaptop(request) ? who : undefined
    const nightId = nightOf(request)
    return who?.isConfirmed && (nightId === null || nightId === who.nightId) ? who : undefined
  }

  return (request) => {
    if (!request.cookies) return undefined
    const answer = told.get(request) ?? { who: tell(request) }
    told.set(request, answer)
    return answer.who
  }
}

/** Who acts; a forbidden Fault for a visitor, though no route for acts should let one come so far. */
export function actorOf(who: Who | undefined): Who {
  if (!who) throw new Fault('forbidden', 'fault.join-first')
  return who
}

/** The role of whoever asks. */
export const roleTeller =
  (whoOf: WhoOf): RoleOf =>
  (request) =>
    whoOf(request)?.role ?? 'visitor'

/** The night that an address speaks of, or null. */
function nightOf({ params, routeOptions }: FastifyRequest): string | null {
  const named: { readonly id?: string; readonly nightId?: string } = params ?? {}
  if (named.nightId !== undefined) return named.nightId
  return routeOptions.url?.includes('/nights/:id') ? (named.id ?? null) : null
}

export interface RouteRole {
  readonly method: string
  readonly url: string
  readonly role: Role
}

/** Refuses to start with a route that names no role; `seen` is told of each one that does. */
export function nameRoles(app: FastifyInstance, seen: (route: RouteRole) => void): void {
  app.addHook('onRoute', ({ config, method, url }) => {
    if (!config?.role) throw new Error(`${method} ${url} names no role`)
    for (const each of [method].flat()) seen({ method: each, url, role: config.role })
  })
}

/** Refuses every request whose sender may not use its route. */
export function keepRoles(app: FastifyInstance, roleOf: RoleOf, answer: AnswerTrouble): void {
  // Before the body is read, and after the pace, which counts requests that are refused too.
  app.addHook('preParsing', async (request, reply) => {
    const needed = request.routeOptions.config.role ?? 'visitor'
    if (!ALLOWED[needed].includes(roleOf(request))) return turnAway(request, reply, answer)
  })
}

/** The host's pages open at the laptop alone: elsewhere no sign-in would help; the field's open to phones that have joined. */
function turnAway(request: FastifyRequest, reply: FastifyReply, answer: AnswerTrouble) {
  const isForHost = request.routeOptions.config.role === 'host'
  if (!isAtLaptop(request)) {
    return answer(request, reply, { status: 403, key: isForHost ? 'fault.laptop-only' : 'fault.join-first' })
  }
  if (isApi(request)) return answer(request, reply, { status: 401, key: 'fault.sign-in' })
  const back = request.method === 'GET' ? localPath(request.url) : '/'
  return reply.redirect(`/sign-in?back=${encodeURIComponent(back)}`, 303)
}

const LONGEST_BACK = 500

/**
 * A path of this service to come back to, of 500 characters at most, without two slashes in a row or a backslash;
 * anything else, since it could lead elsewhere, becomes the first page.
 */
export function localPath(text: string | undefined): string {
  const isLocal = /^\/(?!\/)(?:[\x21-\x2e\x30-\x5b\x5d-\x7e]|\/(?!\/))*$/
  return text && text.length <= LONGEST_BACK && isLocal.test(text) ? text : '/'
}
