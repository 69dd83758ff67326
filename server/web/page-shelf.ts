import type { Packable } from './packing.ts'

export interface KeptPage extends Packable<string> {
  readonly tag: string
}

/** How a page that was made may be used: kept, shared with those who wait for it just now, or by nobody else. */
export type Use = 'kept' | 'shared' | 'once'

/** The place of a page that is to be made. */
export interface Place {
  /** Puts the page there, or takes the place away; whoever waits goes on. */
  fill(page: KeptPage, use: Use): void
  /** Takes the place away, since no page came. */
  empty(): void
}

/** What is at a place: a page, perhaps one that is just being made (null when it turns out to be of no use), or the place itself. */
type Found = { readonly page: Promise<KeptPage | null> | KeptPage } | { readonly place: Place }

const MOST_PAGES = 200
const MOST_BYTES = 100_000

/** Pages by all that they depend on, of one moment; those of the moment before are let go. */
export function pageShelf(momentNow: () => string) {
  let moment = ''
  let pages = new Map<string, Promise<KeptPage | null> | KeptPage>()

  return (key: string): Found => {
    const now = momentNow()
    if (now !== moment) [moment, pages] = [now, new Map()]
    const page = pages.get(key)
    return page ? { page } : { place: placeIn(pages, key) }
  }
}

function placeIn(pages: Map<string, Promise<KeptPage | null> | KeptPage>, key: string): Place {
  let settle: (page: KeptPage | null) => void = () => {}
  const waiting = new Promise<KeptPage | null>((resolve) => {
    settle = resolve
  })
  pages.set(key, waiting)
  for (const oldest of pages.keys()) if (pages.size > MOST_PAGES) pages.delete(oldest)
  return {
    fill(page, use) {
      settle(use === 'once' ? null : page)
      if (use === 'kept' && Buffer.byteLength(page.body) <= MOST_BYTES) pages.set(key, page)
      else pages.delete(key)
    },
    empty() {
      settle(null)
      pages.delete(key)
    },
  }
}
