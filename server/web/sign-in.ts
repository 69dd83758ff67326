import type { CookieSerializeOptions } from '@fastify/cookie'
import type { FastifyReply, FastifyRequest } from 'fastify'
import type { Desk } from '../desk/desk.ts'
import { Fault } from '../errors.ts'
import type { Limits } from './limits.ts'
import { isAtLaptop, SESSION_COOKIE } from './roles.ts'

const COOKIE: CookieSerializeOptions = { path: '/', httpOnly: true, sameSite: 'lax' }

interface Tries {
  wrong: number
  lastMs: number
}

export type SignIn = ReturnType<typeof signInDesk>

/**
 * The host's way in and out, for the form and for the API. Only the laptop itself may try a PIN at all, so nobody
 * on the field can make the host wait; after a few wrong ones each further try waits longer, to a minute at most.
 */
export function signInDesk(desk: Pick<Desk, 'sessions'>, { signIn }: Limits, nowMs = () => performance.now()) {
  const tries = new Map<string, Tries>()

  const triesOf = (address: string): Tries => {
    const kept = tries.get(address)
    return kept && nowMs() - kept.lastMs < signIn.forgetMs ? kept : { wrong: 0, lastMs: nowMs() }
  }

  const waitMs = ({ wrong, lastMs }: Tries): number => {
    if (wrong < signIn.freeTries) return 0
    const delayMs = Math.min(signIn.longestWaitMs, 1000 * 2 ** (wrong - signIn.freeTries))
    return Math.max(0, lastMs + delayMs - nowMs())
  }

  return {
    /** Opens a session for the right PIN and hands over its cookie; throws a Fault for a wrong one or one that comes too soon. */
    async open(request: FastifyRequest, reply: FastifyReply, pin: string): Promise<void> {
      if (!isAtLaptop(request)) throw new Fault('forbidden', 'fault.laptop-only')
      const before = triesOf(request.ip)
      const seconds = Math.ceil(waitMs(before) / 1000)
      if (seconds > 0) {
        reply.header('retry-after', String(seconds))
        throw new Fault('busy', 'fault.too-many-tries', { seconds })
      }
      tries.set(request.ip, { wrong: before.wrong + 1, lastMs: nowMs() })
      const token = await desk.sessions.signIn(pin)
      tries.delete(request.ip)
      this.forget(request)
      reply.setCookie(SESSION_COOKIE, token, COOKIE)
    },

    /** Ends the session and takes its cookie back. */
    close(request: FastifyRequest, reply: FastifyReply): void {
      this.forget(request)
      reply.clearCookie(SESSION_COOKIE, COOKIE)
    },

    /** Ends the session whose cookie came with the request, if there is one. */
    forget(request: FastifyRequest): void {
      const token = request.cookies[SESSION_COOKIE]
      if (token) desk.sessions.signOut(token)
    },
  }
}
