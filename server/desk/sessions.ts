import { Fault } from '../errors.ts'
import type { Desk } from './desk.ts'
import { newId } from './ids.ts'
import { hashOf, newToken } from './join-codes.ts'
import { hashPin, isPin, makePin } from './pin.ts'
import type { Stores } from './stores.ts'
import { type TryLimits, tryCounter } from './tries.ts'

const PIN_KEY = 'pin'
const SESSION_MS = 12 * 3_600_000

type Needs = Pick<Stores, 'phones' | 'settings'> & {
  /** The PIN of this start; null keeps the one of before, and makes one where there is none. */
  readonly pin: string | null
  readonly limits: TryLimits
  /** When each phone was last heard, by its id; kept up here. */
  readonly heard: Map<string, number>
  /** The laptop's own time in milliseconds, for sign-in only. */
  readonly nowMs: () => number
}

/** The host's way in: a PIN against a random token, of which only the hash is kept. */
export async function sessionDesk({ phones, settings, pin, limits, heard, nowMs }: Needs): Promise<Desk['sessions']> {
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
    const token = newToken()
    const expiresAt = new Date(nowMs() + SESSION_MS)
    const host = {
      role: 'host',
      name: 'host',
      nightId: null,
      stationId: null,
      isConfirmed: true,
      aheadSec: null,
    } as const
    phones.add({ ...host, id: newId(), tokenHash: hashOf(token), madeAt: now(), expiresAt })
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
      if (!phone) return undefined
      heard.set(phone.id, nowMs())
      const { tokenHash: _hash, ...who } = phone
      return who
    },
    signOut: (token) => phones.revoke(hashOf(token), now()),
  }
}
