// What the phone's storage holds of acts: one name an act, so that two pages of one phone never write over each other's taps.
import type { Act } from './outbox.ts'

/** The part of `localStorage` that is used. */
export interface Shelf {
  readonly length: number
  key(index: number): string | null
  getItem(name: string): string | null
  setItem(name: string, text: string): void
  removeItem(name: string): void
}

export interface Waiting {
  readonly is: 'waiting'
  /** True when the laptop had it already and lost it to a backup. */
  readonly again?: true
}
export interface Refused {
  readonly is: 'refused'
  /** Why the laptop will never take it, in its own words. */
  readonly reason: string
}
interface Kept {
  readonly is: 'kept'
  /** The laptop's run in which it answered. */
  readonly epoch: string
  readonly atMs: number
}
type Turn = Waiting | Refused | Kept

export interface Held<Now extends Turn = Turn> extends Act {
  /** Counts up over all acts in the phone, since its clock may be set back. */
  readonly order: number
  readonly now: Now
}

/** How long an act is held after the laptop has it, for a laptop that is restored from a backup of before. */
export const KEPT_MS = 15 * 60_000
const PREFIX = 'act-'

/** The acts of a night in the phone, oldest first, by what became of them. */
export function heldIn(shelf: Shelf, nightId: string, nowMs: () => number) {
  const own = `${PREFIX}${nightId}-`

  const those = <Now extends Turn>(is: Now['is']): readonly Held<Now>[] =>
    namesIn(shelf, own)
      .map((name) => read(shelf, name))
      .filter((act): act is Held<Now> => act?.now.is === is)
      .sort((a, b) => a.order - b.order || (a.key < b.key ? -1 : 1))

  function clearKept(isOver: (kept: Kept) => boolean): void {
    for (const name of namesIn(shelf, PREFIX)) {
      const now = read(shelf, name)?.now
      if (now?.is === 'kept' && isOver(now)) shelf.removeItem(name)
    }
  }

  /** Writes an act; in a full phone, what the laptop has already makes room. */
  function put(act: Held): void {
    const [name, text] = [own + act.key, JSON.stringify(act)]
    try {
      shelf.setItem(name, text)
    } catch {
      clearKept(() => true)
      shelf.setItem(name, text)
    }
    if (shelf.getItem(name) !== text) throw new Error('The phone keeps nothing')
  }

  return {
    waiting: () => those<Waiting>('waiting'),
    refused: () => those<Refused>('refused'),
    kept: () => those<Kept>('kept'),

    add(act: Act): void {
      const orders = namesIn(shelf, own).map((name) => read(shelf, name)?.order ?? 0)
      put({ ...act, order: Math.max(0, ...orders) + 1, now: { is: 'waiting' } })
    },

    /** Says what became of an act that is still held; one that another page has dropped meanwhile stays away. */
    turn(key: string, now: Turn): void {
      const act = read(shelf, own + key)
      try {
        if (act) put({ ...act, now })
      } catch (error) {
        if (now.is !== 'kept') throw error
        shelf.removeItem(own + key)
      }
    },

    drop: (key: string): void => shelf.removeItem(own + key),

    /** Lets go of what the laptop has had for long enough, of every night. */
    tidy: (): void => clearKept(({ atMs }) => Math.abs(nowMs() - atMs) > KEPT_MS),
  }
}

function namesIn(shelf: Shelf, prefix: string): readonly string[] {
  const names = Array.from({ length: shelf.length }, (_, index) => shelf.key(index) ?? '')
  return names.filter((name) => name.startsWith(prefix))
}

function read(shelf: Shelf, name: string): Held | null {
  try {
    const found = JSON.parse(shelf.getItem(name) ?? 'null')
    return typeof found?.key === 'string' && typeof found.now?.is === 'string' ? found : null
  } catch {
    return null
  }
}
