import { createHash, randomBytes } from 'node:crypto'
import { Fault } from '../errors.ts'
import type { Desk } from './desk.ts'
import { newId } from './ids.ts'
import { hashPin, isPin, makePin } from './pin.ts'
import type { Stores } from './stores.ts'
import { type TryLimits, tryCounter } from './tries.ts'

const PIN_KEY = 'pin'
const TOKEN_BYTES = 16
const SESSION_MS = 12 * 3_600_000

type Needs = Pick<Stores, 'phones' | 'settings'> & {
  /** The PIN of this start; null keeps the one of before, and makes one where there is none. */
  readonly pin: string | null
  readonly limits: TryLimits
  /** The laptop's own time in milliseconds, for sign-in only. */
  readonly nowMs: () => number
}

/** The host's way in: a PIN against a random token, of which only the hash is kept. */
export async function sessionDesk({ phones, settings, pin, limits, nowMs }: Needs): Promise<Desk['sessions']> {
  const now = () => new Date(nowMs())
  const newPin = pin ?? (settings.find(PIN_KEY) === undefined ? makePin() : null)
  if (newPin !== null) await setPin(newPin)
  const tries = tryCounter(limits, nowMs)

  async function setPin(asked: string): Promise<void> {
    const kept = settings.find(PIN_KEY)
    if (kept !== undefined && (await isPin(asked, kept))) return
    settings.put(PIN_KEY, await hashPin(asked))
    phones.revokeRole('host', now())
  }

  function openSession(): string {
    const token = randomBytes(TOKEN_BYTES).toString('base64url')
    const expiresAt = new Date(nowMs() + SESSION_MS)
    phones.add({ id: newId(), tokenHash: hashOf(token), role: 'host', name: 'host', madeAt: now(), expiresAt })
    return token
  }

  return {
    newPin,
    async signIn(tried) {
      const waitMs = tries.waitMs()
      if (waitMs > 0) throw new Fault('busy', 'fault.too-many-tries', { seconds: Math.ceil(waitMs / 1000) })
      const takeBack = tries.begin()
      const kept = settings.find(PIN_KEY)
      const isRight = kept !== undefined && (await isPin(tried, kept))
      if (!isRight) throw new Fault('forbidden', 'fault.wrong-pin')
      takeBack()
      return openSession()
    },
    who(token) {
      const phone = phones.find(hashOf(token), now())
      return phone?.role === 'host' ? { role: 'host', name: phone.name } : undefined
    },
    signOut: (token) => phones.revoke(hashOf(token), now()),
  }
}

const hashOf = (token: string): string => createHash('sha256').update(token).digest('hex')
