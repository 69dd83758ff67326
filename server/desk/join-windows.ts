import { isSameSecret, newToken, quickDigits } from './join-codes.ts'

/** A quick join that the host has opened: one phone, one minute, five tries in all. */
export interface QuickWindow {
  readonly digits: string
  readonly secondsLeft: number
  readonly triesLeft: number
}

/** A way in for the host's own phone, used once. */
export interface Pairing {
  readonly token: string
  readonly secondsLeft: number
}

interface OpenWindow extends Pick<QuickWindow, 'digits' | 'triesLeft'> {
  readonly untilMs: number
}

const WINDOW_MS = 60_000
const WINDOW_TRIES = 5
const PAIRING_MS = 600_000
const DIGITS = /^\d{4}$/

export type JoinWindows = ReturnType<typeof joinWindows>

/** The ways in that the host opens for a short time, for one phone each; they are nowhere kept but here. */
export function joinWindows(nowMs: () => number) {
  const quick = new Map<string, OpenWindow>()
  const pairings = new Map<string, { readonly token: string; readonly untilMs: number }>()
  const secondsUntil = (ms: number): number => Math.ceil((ms - nowMs()) / 1000)

  function window(nightId: string): QuickWindow | null {
    const found = quick.get(nightId)
    if (!found || found.untilMs <= nowMs() || found.triesLeft <= 0) return null
    return { digits: found.digits, secondsLeft: secondsUntil(found.untilMs), triesLeft: found.triesLeft }
  }
  function pairing(nightId: string): Pairing | null {
    const found = pairings.get(nightId)
    return found && found.untilMs > nowMs() ? { token: found.token, secondsLeft: secondsUntil(found.untilMs) } : null
  }

  return {
    window,
    pairing,
    openWindow(nightId: string): QuickWindow {
      const digits = quickDigits()
      quick.set(nightId, { digits, untilMs: nowMs() + WINDOW_MS, triesLeft: WINDOW_TRIES })
      return { digits, secondsLeft: WINDOW_MS / 1000, triesLeft: WINDOW_TRIES }
    },
    pair(nightId: string): string {
      const token = newToken()
      pairings.set(nightId, { token, untilMs: nowMs() + PAIRING_MS })
      return token
    },
    isQuick: (nightId: string, said: string): boolean => isSameSecret(said, window(nightId)?.digits ?? ''),
    isPairing: (nightId: string, said: string): boolean => isSameSecret(said, pairing(nightId)?.token ?? ''),
    /** Takes a way in away once a phone has used it. */
    used(nightId: string, way: 'quick' | 'pairing'): void {
      if (way === 'quick') quick.delete(nightId)
      else pairings.delete(nightId)
    },
    /** Four wrong digits, as `plainCode` writes them, cost every open window a try. */
    wrong(said: string): void {
      if (!DIGITS.test(said)) return
      for (const [nightId, open] of quick) quick.set(nightId, { ...open, triesLeft: open.triesLeft - 1 })
    },
  }
}
