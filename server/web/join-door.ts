import type { CookieSerializeOptions } from '@fastify/cookie'
import type { FastifyReply, FastifyRequest } from 'fastify'
import type { Desk, Who } from '../desk/desk.ts'
import type { JoinAsk } from '../desk/joins.ts'
import { Fault } from '../errors.ts'
import { SESSION_COOKIE } from './roles.ts'

const COOKIE: CookieSerializeOptions = { path: '/', httpOnly: true, sameSite: 'lax', maxAge: 43_200 }

export type JoinDoor = ReturnType<typeof joinDoorOf>

/** The phones' way in and out, for the form and for the API. */
export function joinDoorOf(desk: Pick<Desk, 'joins' | 'sessions'>) {
  return {
    /** Lets a phone in and hands over its cookie; throws a Fault for a wrong code or one that comes too soon. */
    open(request: FastifyRequest, reply: FastifyReply, ask: Omit<JoinAsk, 'address'>): Who {
      try {
        const { token, phone } = desk.joins.join({ ...ask, address: request.ip })
        const before = request.cookies[SESSION_COOKIE]
        if (before) desk.sessions.signOut(before)
        reply.setCookie(SESSION_COOKIE, token, COOKIE)
        const { tokenHash: _hash, ...who } = phone
        return who
      } catch (error) {
        if (error instanceof Fault && error.code === 'busy') reply.header('retry-after', String(error.values.seconds))
        throw error
      }
    },

    /** The phone whose cookie came, also while it waits for the host; undefined for none. */
    waiting(request: FastifyRequest): Who | undefined {
      const token = request.cookies[SESSION_COOKIE]
      const who = token ? desk.sessions.who(token) : undefined
      return who?.role === 'host' ? undefined : who
    },
  }
}
