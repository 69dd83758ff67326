/** How many wrong codes are borne. */
export interface JoinLimits {
  /** Wrong tries of one address in a minute before it must wait. */
  readonly perAddress: number
  readonly longestWaitMs: number
  /** Wrong tries of all addresses in a minute before those that have used up their own must wait. */
  readonly inAll: number
  /** Wrong tries from which nobody else can keep an address. */
  readonly own: number
  /** A wrong try counts for so long against its address; then it has its own ones again. */
  readonly forgetMs: number
  /** Own tries in a minute of all addresses that had used theirs before, so that none saves them up. */
  readonly ownAgain: number
}

/** Of addresses that have tried before, 15 + 10 = 25 tries in any minute, which leaves room below thirty for slips of others. */
export const DEFAULT_JOIN_LIMITS: JoinLimits = {
  perAddress: 5,
  longestWaitMs: 60_000,
  inAll: 15,
  own: 3,
  forgetMs: 600_000,
  ownAgain: 10,
}

const MINUTE_MS = 60_000
const KEPT_ADDRESSES = 5_000

interface Wrong {
  readonly times: readonly number[]
  /** Whether earlier tries of this address have been forgotten. */
  readonly isAgain: boolean
}

/**
 * Counts wrong codes. An address waits after a few, ever longer, and all share one measure. Yet each has tries of its own
 * beside that measure, so that nobody on the field can keep out others, not even one who has mistyped twice.
 */
export function joinTries(limits: JoinLimits, nowMs: () => number) {
  const { perAddress, longestWaitMs, inAll, own, forgetMs, ownAgain } = limits
  const wrong = new Map<string, Wrong>()
  let together: readonly number[] = []
  let again: readonly number[] = []

  const since = (times: readonly number[], spanMs: number) => times.filter((ms) => nowMs() - ms < spanMs)

  function lately(address: string): Wrong {
    const known = wrong.get(address)
    const times = since(known?.times ?? [], forgetMs)
    return { times, isAgain: known !== undefined && (known.isAgain || times.length < known.times.length) }
  }

  function ownWaitMs(times: readonly number[]): number {
    const beyond = since(times, MINUTE_MS).length - perAddress
    if (beyond < 0) return 0
    return Math.max(0, (times.at(-1) ?? 0) + Math.min(longestWaitMs, MINUTE_MS * 2 ** (beyond - 3)) - nowMs())
  }

  function measureWaitMs(times: readonly number[], most: number): number {
    const inMinute = since(times, MINUTE_MS)
    return inMinute.length < most ? 0 : (inMinute.at(-most) ?? 0) + MINUTE_MS - nowMs()
  }

  return {
    /** Milliseconds until this address may try; 0 when it may now. */
    waitMs(address: string): number {
      const { times, isAgain } = lately(address)
      if (times.length < own) return isAgain ? measureWaitMs(again, ownAgain) : 0
      return Math.max(measureWaitMs(together, inAll), ownWaitMs(times))
    },
    wrong(address: string): void {
      const { times, isAgain } = lately(address)
      together = [...since(together, MINUTE_MS), nowMs()]
      if (isAgain && times.length < own) again = [...since(again, MINUTE_MS), nowMs()]
      wrong.delete(address)
      wrong.set(address, { times: [...times, nowMs()].slice(-2 * perAddress), isAgain })
      for (const oldest of wrong.keys()) if (wrong.size > KEPT_ADDRESSES) wrong.delete(oldest)
    },
    right: (address: string): void => void wrong.delete(address),
  }
}
