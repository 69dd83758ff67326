import { Readable } from 'node:stream'
import { isLoopbackAddress } from './hosts.ts'
import type { Limits } from './limits.ts'

/** A page that has heard nothing for so long hears a heartbeat. */
const QUIET_MS = 15_000
/** So many heartbeats at a time, and the next ones a moment later: five hundred at once would keep an act waiting. */
const MOST_BEATS = 50
const BEATS_EVERY_MS = 250
const MAX_UNREAD_BYTES = 64 * 1024
// An event and not a comment: a page that hears nothing for the time of two of them knows that its line is dead.
const BEAT = Buffer.from('event: beat\ndata:\n\n')

/** Who holds a page open, and on what. */
interface Holder {
  readonly nightId: string
  readonly address: string
  readonly phoneId?: string | undefined
}

type Page = Holder & { readonly stream: Readable; heardAtMs: number }

/** The streams of the open pages. A page too slow to read is let go and comes back by itself. */
export function openPages() {
  const pages = new Set<Page>()

  function say(page: Page, frame: Buffer): void {
    page.heardAtMs = performance.now()
    if (page.stream.readableLength > MAX_UNREAD_BYTES) page.stream.destroy()
    else page.stream.push(frame)
  }

  const heartbeat = setInterval(() => {
    const quietSinceMs = performance.now() - QUIET_MS
    const quiet = [...pages].filter(({ heardAtMs }) => heardAtMs <= quietSinceMs)
    for (const page of quiet.slice(0, MOST_BEATS)) say(page, BEAT)
  }, BEATS_EVERY_MS).unref()

  return {
    /** True when one more page of this address may be opened; the laptop's own pages are only counted in all. */
    hasRoom(address: string, { perAddress, inAll }: Limits['live']): boolean {
      const held = [...pages].filter((page) => page.address === address).length
      return pages.size < inAll && (held < perAddress || isLoopbackAddress(address))
    },

    /** The stream of a new page, which says `first` and then all that is written. */
    open(holder: Holder, first: string): Readable {
      const stream = new Readable({ read: () => {} })
      const page = { ...holder, stream, heardAtMs: performance.now() }
      pages.add(page)
      stream.once('close', () => pages.delete(page))
      stream.push(first)
      return stream
    },

    /** Writes the same to each page of a night. */
    write(nightId: string, text: string): void {
      const frame = Buffer.from(text)
      for (const page of pages) if (page.nightId === nightId) say(page, frame)
    },

    /** Ends the streams of one phone. */
    hangUp(phoneId: string): void {
      for (const page of pages) if (page.phoneId === phoneId) page.stream.destroy()
    },

    /** Ends all streams with these words. */
    close(last: string): void {
      clearInterval(heartbeat)
      for (const { stream } of pages) {
        stream.push(last)
        stream.push(null)
      }
    },

    get size(): number {
      return pages.size
    },
  }
}
