// Brings an outbox to the laptop: one sending at a time, and after a failed one a wait that grows and is never the same for two phones.
import type { Outbox, Sending } from './outbox.ts'

interface DeliveryNeeds {
  readonly random: () => number
  /** Runs something later; answers how to call that off. */
  readonly later: (ms: number, run: () => Promise<void>) => () => void
  /** Told how each sending ended. */
  readonly told: (sending: Sending) => void
}

/** So short that a phone whose first answer is lost as it comes back has all it needs within three seconds. */
const FIRST_WAIT_MS = 1_000
const LONGEST_WAIT_MS = 30_000

export function delivery(box: Pick<Outbox, 'count' | 'send'>, { random, later, told }: DeliveryNeeds) {
  let isSending = false
  let failures = 0
  let callOff = () => {}

  /** Sends what waits, and again until nothing does. */
  async function deliver(): Promise<void> {
    if (isSending || box.count() === 0) return
    callOff()
    isSending = true
    const sending = await box.send()
    isSending = false
    failures = sending.named > 0 ? 0 : failures + 1
    told(sending)
    if (box.count() > 0) callOff = later(waitMs(failures, random()), deliver)
  }

  return {
    deliver,
    /** The same when the laptop is in reach again: what failed before counts no more. */
    deliverAfresh(): Promise<void> {
      failures = 0
      return deliver()
    },
  }
}

/** None after a sending that got through; else twice as long each time, half of it by chance. */
const waitMs = (failures: number, chance: number): number =>
  failures === 0 ? 0 : Math.min(LONGEST_WAIT_MS, FIRST_WAIT_MS * 2 ** (failures - 1)) * (0.5 + chance / 2)
