import type { Desk } from '../../server/desk/desk.ts'
import { Fault } from '../../server/errors.ts'
import { THE_HOST } from './join-data.ts'

/** Sessions over a set of living tokens, each of them the host's. */
export function fakeSessions(tokens: Set<string>, rightPin: string): Desk['sessions'] {
  return {
    newPin: null,
    async signIn(pin) {
      if (pin !== rightPin) throw new Fault('forbidden', 'fault.wrong-pin')
      const token = `session-${tokens.size + 1}`
      tokens.add(token)
      return token
    },
    who: (token) => (tokens.has(token) ? THE_HOST : undefined),
    signOut: (token) => void tokens.delete(token),
  }
}
