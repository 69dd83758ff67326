import type { Readable } from 'node:stream'
import type { Desk } from '../desk/desk.ts'
import type { FieldState } from '../tours/field.ts'
import type { Mark } from '../tours/mark.ts'
import { gathering } from './gathering.ts'
import { openPages } from './open-pages.ts'

const RETRY_MS = 2_000
const RETRY_WHEN_CLOSING_MS = 1_000

/** One event of the stream: its id is the version of the night after it. */
interface LiveEvent {
  readonly id: string
  readonly event: 'marks' | 'programme'
  readonly data: object
}

export type LiveBoard = ReturnType<typeof liveBoard>

/** Sends each event of a night to every page that is open on it. */
export function liveBoard() {
  const pages = openPages()
  const tell = (nightId: string, event: LiveEvent): void => pages.write(nightId, frameOf(event))
  const news = gathering(tell)

  return {
    hasRoom: pages.hasRoom,

    /** A stream to answer with: the time to wait before coming back, the first event, then all that follow. */
    open(nightId: string, address: string, first: LiveEvent, phoneId?: string): Readable {
      // What waits is older than the first event of the new page.
      news.now(nightId)
      return pages.open({ nightId, address, phoneId }, `retry: ${RETRY_MS}\n\n${frameOf(first)}`)
    },

    /** Sends an event to the pages of one night, after all that waits to be told of it. */
    publish(nightId: string, event: LiveEvent): void {
      news.now(nightId)
      tell(nightId, event)
    },

    /** Has an event made and sent to the pages of one night in a moment; null for one that is not needed. */
    soon: news.soon,

    hangUp: pages.hangUp,

    /** Ends all streams; the pages come back in a second. */
    close(): void {
      news.close()
      pages.close(`retry: ${RETRY_WHEN_CLOSING_MS}\n\n`)
    },

    /** How many pages are open. */
    get size(): number {
      return pages.size
    },
  }
}

const frameOf = ({ id, event, data }: LiveEvent): string =>
  `id: ${id}\nevent: ${event}\ndata: ${JSON.stringify(data)}\n\n`

/** The desk, telling the board whenever marks are kept, a programme is built or a phone is removed, whichever route asked for it. */
export function announcing(desk: Desk, live: LiveBoard): Desk {
  const toldSeq = new Map<string, number>()

  /** Does what may add marks to a night, and has all pages told of those that it has added. */
  function marking<Result>(nightId: string, work: () => Result): Result {
    if (!toldSeq.has(nightId)) toldSeq.set(nightId, seqOf(desk.marks.version(nightId)))
    const done = work()
    live.soon(nightId, () => marksEvent(nightId))
    return done
  }

  function marksEvent(nightId: string): LiveEvent | null {
    const marks = desk.marks.since(nightId, toldSeq.get(nightId) ?? 0)
    const newest = marks.at(-1)
    if (!newest) return null
    toldSeq.set(nightId, newest.seq)
    return {
      id: desk.marks.version(nightId),
      event: 'marks',
      data: { marks: marks.map(signOf), field: aheadOf(desk.marks.field(nightId)) },
    }
  }

  return {
    ...desk,
    marks: {
      ...desk.marks,
      record: (nightId, drafts, by, role) => marking(nightId, () => desk.marks.record(nightId, drafts, by, role)),
    },
    again: {
      ...desk.again,
      tell: (nightId, told, by) => marking(nightId, () => desk.again.tell(nightId, told, by)),
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
    joins: {
      ...desk.joins,
      revoke(nightId, phoneId) {
        desk.joins.revoke(nightId, phoneId)
        live.hangUp(phoneId)
      },
    },
  }
}

/** What anybody may hear of an act: that it is kept. Who did it and what they said is for those who act. */
export const signOf = ({ seq, key }: Mark) => ({ seq, key })

/** The number in a version. */
const seqOf = (version: string): number => Number(version.split('.').at(-1))

/** The field without what was: of a long evening that would be most of every event, and five hundred pages may come back at once. */
export const aheadOf = ({ stations, ...field }: FieldState) => ({
  ...field,
  stations: stations.map(({ shown: _shown, skipped: _skipped, lastMarkKey: _key, ...now }) => now),
})
