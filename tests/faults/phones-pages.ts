import { delivery } from '../../views/scripts/delivery.ts'
import type { Shelf } from '../../views/scripts/held.ts'
import { type Act, outbox } from '../../views/scripts/outbox.ts'
import type { Air, Answered } from './phones-air.ts'
import { pageShelf } from './phones-shelf.ts'

/** One page of a phone. */
interface PhonePage {
  add(act: Act): void
  /** Sends what waits, and again until nothing does. */
  deliver(): void
  /** Ends the page: it writes nothing any more and never learns what becomes of a request that is under way. */
  crash(): void
  /** The taps that it lists as refused. */
  refused(): readonly string[]
  count(): number
}

interface PageNeeds {
  readonly nightId: string
  readonly phone: number
  readonly shelf: Shelf
  readonly air: Pick<Air, 'send'>
  readonly random: () => number
  readonly nowMs: () => number
  /** Runs something so much later; answers how to call that off. */
  readonly later: (ms: number, run: () => void) => () => void
  /** Told of every sending that is under way. */
  readonly begun: (sending: Promise<void>) => void
}

/** Opens a page with the outbox of the real pages in it; what an earlier page has left in the phone is in it too. */
export function openPage({ nightId, phone, air, random, nowMs, later, begun, ...needs }: PageNeeds): PhonePage {
  const { shelf, crash } = pageShelf(needs.shelf)
  let isOpen = true
  const fetch = (_address: string, { body }: RequestInit) =>
    new Promise<Response>((resolve, reject) => {
      const settle = (answer: Answered | null) =>
        answer ? resolve(new Response(answer.text, answer)) : reject(new Error('The line is broken'))
      air.send({ phone, body: String(body), settle })
    })
  const box = outbox(nightId, { shelf, nowMs, fetch })
  const watched = (run: () => Promise<void>) => () => {
    const throwWhileOpen = (error: unknown): void => {
      if (isOpen) throw error
    }
    if (isOpen) begun(run().catch(throwWhileOpen))
  }
  const { deliver } = delivery(box, { random, later: (ms, run) => later(ms, watched(run)), told: () => {} })
  return {
    add: box.add,
    deliver: watched(deliver),
    crash() {
      isOpen = false
      crash()
    },
    refused: () => box.refused().map(({ text }) => text),
    count: box.count,
  }
}
