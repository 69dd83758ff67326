/** How many wrong codes are borne. */
export interface JoinLimits {
  /** Wrong tries of one address in a minute before it must wait. */
  readonly perAddress: number
  readonly longestWaitMs: number
  /** Wrong tries of all addresses in a minute before those that have used up their own must wait. */
  readonly inAll: number
  /** Wrong tries from which nobody else can keep an address. */
  readonly own: number
  /** A wrong try counts for so long against its address. */
  readonly forgetMs: number
}

/** With fifty addresses at work, 20 + 2 x 50 / 10 = 30 tries a minute. */
export const DEFAULT_JOIN_LIMITS: JoinLimits = {
  perAddress: 5,
  longestWaitMs: 60_000,
  inAll: 20,
  own: 2,
  forgetMs: 600_000,
}

const MINUTE_MS = 60_000
const KEPT_ADDRESSES = 5_000

/**
 * Counts wrong codes. An address waits after a few, ever longer, and all share one measure. Yet each has tries of its own
 * beside that measure, so that nobody on the field can keep out others, not even one who has mistyped.
 */
export function joinTries({ perAddress, longestWaitMs, inAll, own, forgetMs }: JoinLimits, nowMs: () => number) {
  const wrong = new Map<string, number[]>()
  let together: number[] = []

  const since = (times: readonly number[], spanMs: number): number[] => times.filter((ms) => nowMs() - ms < spanMs)
  const lately = (address: string): number[] => since(wrong.get(address) ?? [], forgetMs)

  function ownWaitMs(times: readonly number[]): number {
    const beyond = since(times, MINUTE_MS).length - perAddress
    if (beyond < 0) return 0
    return Math.max(0, (times.at(-1) ?? 0) + Math.min(longestWaitMs, MINUTE_MS * 2 ** (beyond - 3)) - nowMs())
  }

  function sharedWaitMs(): number {
    together = since(together, MINUTE_MS)
    return together.length < inAll ? 0 : (together.at(-inAll) ?? 0) + MINUTE_MS - nowMs()
  }

  return {
    /** Milliseconds until this address may try; 0 when it may now. */
    waitMs(address: string): number {
      const times = lately(address)
      return times.length < own ? 0 : Math.max(sharedWaitMs(), ownWaitMs(times))
    },
    wrong(address: string): void {
      const times = lately(address)
      together = [...since(together, MINUTE_MS), nowMs()]
      wrong.delete(address)
      wrong.set(address, [...times, nowMs()].slice(-2 * perAddress))
      for (const oldest of wrong.keys()) if (wrong.size > KEPT_ADDRESSES) wrong.delete(oldest)
    },
    right: (address: string): void => void wrong.delete(address),
  }
}
