import { seededRandom } from '../../server/sky/random.ts'

/** One tap of an evening, as its seed has it. */
export interface Tap {
  /** Names the act within its evening. */
  readonly name: string
  readonly phone: number
  /** Since the evening began; no two taps at the same moment. */
  readonly atMs: number
  readonly kind: string
  /** The place of its station in the row; null for none. */
  readonly station: number | null
  readonly payload: Readonly<Record<string, unknown>>
  /** The tap that it takes back. */
  readonly undoes: string | null
  /** True for one that the laptop must refuse. */
  readonly isBad: boolean
}

/** An eighth of a second, which binary fractions of seconds hold without rounding. */
const STEP_MS = 125
export const TARGETS = ['saturn', 'moon', 'm42', 'm45', 'm31']
const BAD_SHARE = 0.03
const UNDO_SHARE = 0.1

/** So many taps of forty operators, about five a second with bursts in which all tap at once. */
export function tapsOf(seed: number, count: number, phones: number, stations: number): readonly Tap[] {
  const random = seededRandom(seed)
  const below = (end: number): number => Math.floor(random() * end)
  const some = <Thing>(list: readonly Thing[]): Thing | null => list[below(list.length)] ?? null
  const good: Tap[][] = Array.from({ length: phones }, () => [])
  let atMs = 0
  let burst = 0

  function tap(index: number): Tap {
    if (burst === 0 && random() < 0.005) burst = phones
    const phone = burst > 0 ? --burst : below(phones)
    atMs += burst > 0 ? STEP_MS : STEP_MS * (1 + below(3))
    const name = `tap-${String(index).padStart(4, '0')}`
    const before = random() < UNDO_SHARE ? some(good[phone] ?? []) : null
    const isBad = before === null && random() < BAD_SHARE
    const made = { name, phone, atMs, isBad, undoes: before?.name ?? null, ...whatOf(before) }
    if (isBad) return { ...made, payload: { targetKey: 'nothing-such', aim: 'whole' }, kind: 'showing', station: 0 }
    good[phone]?.push(made)
    return made
  }

  function whatOf(before: Tap | null): Pick<Tap, 'kind' | 'station' | 'payload'> {
    if (before !== null) return { kind: 'undo', station: before.station, payload: {} }
    const station = below(stations)
    const targetKey = some(TARGETS) ?? ''
    const chance = random()
    if (chance < 0.15) return { kind: 'counted', station: null, payload: { adults: below(4), children: below(3) } }
    if (chance < 0.55) return { kind: 'showing', station, payload: { targetKey, aim: 'whole' } }
    if (chance < 0.75) return { kind: 'shown', station, payload: { targetKey } }
    if (chance < 0.85) return { kind: 'skipped', station, payload: { targetKey, why: 'cloud' } }
    if (chance < 0.95) return { kind: 'seen', station, payload: { targetKey, who: 'half' } }
    return { kind: 'trouble', station, payload: { what: 'help' } }
  }

  return Array.from({ length: count }, (_, index) => tap(index))
}
