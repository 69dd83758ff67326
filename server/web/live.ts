import { PassThrough, type Readable } from 'node:stream'
import type { Desk } from '../desk/desk.ts'
import { isLoopbackAddress } from './hosts.ts'
import type { Limits } from './limits.ts'

const RETRY_MS = 2_000
const RETRY_WHEN_CLOSING_MS = 1_000
const HEARTBEAT_MS = 15_000
const MAX_UNREAD_BYTES = 64 * 1024

/** One event of the stream: its id is the version of the night after it. */
export interface LiveEvent {
  readonly id: string
  readonly event: 'marks' | 'programme'
  readonly data: object
}

export type LiveBoard = ReturnType<typeof liveBoard>

/** Sends each event of a night to every page that is open on it. A page too slow to read is let go and comes back by itself. */
export function liveBoard() {
  const readers = new Map<PassThrough, { readonly nightId: string; readonly address: string }>()

  function write(frame: string, nightId?: string): void {
    for (const [reader, own] of readers) {
      if (nightId !== undefined && nightId !== own.nightId) continue
      if (reader.writableLength > MAX_UNREAD_BYTES) reader.destroy()
      else reader.write(frame)
    }
  }

  const heartbeat = setInterval(() => write(': still here\n\n'), HEARTBEAT_MS).unref()

  return {
    /** True when one more page of this address may be opened; the laptop's own pages are only counted in all. */
    hasRoom(address: string, { perAddress, inAll }: Limits['live']): boolean {
      const held = [...readers.values()].filter((reader) => reader.address === address).length
      return readers.size < inAll && (held < perAddress || isLoopbackAddress(address))
    },

    /** A stream to answer with: the time to wait before coming back, the first event, then all that follow. */
    open(nightId: string, address: string, first: LiveEvent): Readable {
      const reader = new PassThrough()
      readers.set(reader, { nightId, address })
      reader.once('close', () => readers.delete(reader))
      reader.write(`retry: ${RETRY_MS}\n\n${frameOf(first)}`)
      return reader
    },

    /** Sends an event to the pages of one night. */
    publish: (nightId: string, event: LiveEvent): void => write(frameOf(event), nightId),

    /** Ends all streams; the pages come back in a second. */
    close(): void {
      clearInterval(heartbeat)
      for (const reader of readers.keys()) reader.end(`retry: ${RETRY_WHEN_CLOSING_MS}\n\n`)
    },

    /** How many pages are open. */
    get size(): number {
      return readers.size
    },
  }
}

const frameOf = ({ id, event, data }: LiveEvent): string =>
  `id: ${id}\nevent: ${event}\ndata: ${JSON.stringify(data)}\n\n`

/** The desk, telling the board whenever marks are kept or a programme is built, whichever route asked for it. */
export function announcing(desk: Desk, live: LiveBoard): Desk {
  return {
    ...desk,
    marks: {
      ...desk.marks,
      record(nightId, drafts, by) {
        const recorded = desk.marks.record(nightId, drafts, by)
        const data = { marks: recorded.kept, field: desk.marks.field(nightId) }
        live.publish(nightId, { id: desk.marks.version(nightId), event: 'marks', data })
        return recorded
      },
    },
    tours: {
      ...desk.tours,
      async build(nightId, options) {
        const tour = await desk.tours.build(nightId, options)
        const data = { tourId: tour.id, version: tour.version }
        live.publish(nightId, { id: desk.marks.version(nightId), event: 'programme', data })
        return tour
      },
    },
  }
}
