import type { Kept } from './fake-desk.ts'
import { NIGHT_DRAFT } from './field-data.ts'

/** A request of the service's own pages that changes something, each time anew. */
export interface Act {
  readonly url: string
  readonly type: 'application/json' | 'application/x-www-form-urlencoded'
  readonly body: (key: string) => string
}

/** A night, a mark and a mark by form: what a page elsewhere would like to have done in a host's name. */
export const ACTS: readonly Act[] = [
  { url: '/api/nights', type: 'application/json', body: () => JSON.stringify(NIGHT_DRAFT) },
  {
    url: '/api/nights/night-1/marks',
    type: 'application/json',
    body: (key) => JSON.stringify({ marks: [{ key, kind: 'trouble', stationId: null, payload: HELP, secondsAgo: 0 }] }),
  },
  {
    url: '/field/night-1/marks',
    type: 'application/x-www-form-urlencoded',
    body: (key) => new URLSearchParams({ key, kind: 'trouble', ...HELP }).toString(),
  },
]
const HELP = { what: 'help' }

/** How much a fake desk has been told, as one text. */
export const toldSoFar = ({ sites, telescopes, nights, tours, marks, wishes }: Kept): string =>
  `${sites.length} sites, ${telescopes.length} telescopes, ${nights.length} nights, ${tours.length} programmes, ${marks.length} marks, ${wishes.length} wishes`
