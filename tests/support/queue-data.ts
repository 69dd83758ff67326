import { lineNow } from '../../server/tours/line-now.ts'
import type { Mark } from '../../server/tours/mark.ts'
import type { Pages } from '../../server/web/pages/index.ts'
import { lineHelperPage } from '../../server/web/pages/line-page.ts'
import { tonightPage } from '../../server/web/pages/tonight.ts'
import { A_BESIDE, A_MIXED_NIGHT } from './beside-data.ts'
import { A_NIGHT } from './field-data.ts'
import { nothingKnown } from './go-data.ts'
import { A_FIELD, A_STATION_NOW, A_STORY, EMPTY_FIELD, HOST, NAMES, TOUR, UNTOLD, VISITOR } from './page-data.ts'

/** A mark of the night of the tests, made at a time of 20 November 2026 in UTC. */
export const markAt = (seq: number, time: string, mark: Pick<Mark, 'kind' | 'payload' | 'stationId'>): Mark => {
  const at = new Date(`2026-11-20T${time}Z`)
  return { seq, key: `key-${seq}-abcdef`, nightId: A_NIGHT.id, by: 'Ada', receivedAt: at, happenedAt: at, ...mark }
}

const counted = markAt(1, '17:40:00', { kind: 'counted', stationId: null, payload: { adults: 8, children: 4 } })
const timed = markAt(2, '17:41:00', { kind: 'timed', stationId: 'station-1', payload: { people: 10, seconds: 460 } })

/** The oak's telescope shows the cluster at 18:45, with twelve people counted on the field. */
export const A_LINE_NOW = lineNow({
  night: A_MIXED_NIGHT,
  stops: TOUR.stops,
  field: { ...A_FIELD, stations: [{ ...A_STATION_NOW, trouble: null }], adultsIn: 8, childrenIn: 4 },
  marks: [counted, timed],
})
export const AN_EMPTY_LINE_NOW = lineNow({ night: A_NIGHT, stops: [], field: EMPTY_FIELD, marks: [] })

export const A_QUEUE = {
  night: A_MIXED_NIGHT,
  line: A_LINE_NOW,
  tourVersion: 1,
  version: 'first.2',
  beside: A_BESIDE,
  names: NAMES,
  look: 'lamp',
  newKey: () => 'key-12345',
} as const

export const A_TONIGHT_PAGE = {
  ...A_QUEUE,
  tour: TOUR,
  look: 'day',
  altitudeOf: () => 40,
  second: 'de',
  languages: ['de', 'en', 'it'],
  secondStory: () => ({ ...A_STORY, language: 'de', see: 'Ein runder Nebel.' }),
  isSunUp: true,
  go: nothingKnown(A_MIXED_NIGHT),
} as const

const bare = { night: { ...A_NIGHT, visitors: [], stations: [] }, line: AN_EMPTY_LINE_NOW, beside: [], names: UNTOLD }

/** The line helper's page and the visitors', each once with all that it can say and once with nothing. */
export const QUEUE_PAGES: {
  readonly [Page in 'line-page' | 'tonight']: readonly [full: Pages[Page], empty: Pages[Page]]
} = {
  'line-page': [
    lineHelperPage(HOST, A_QUEUE),
    lineHelperPage(VISITOR, { ...A_QUEUE, ...bare, tourVersion: 0, look: 'day' }),
  ],
  tonight: [
    tonightPage(VISITOR, A_TONIGHT_PAGE),
    tonightPage(VISITOR, {
      ...A_TONIGHT_PAGE,
      ...bare,
      tour: undefined,
      look: 'lamp',
      altitudeOf: () => null,
      second: null,
      languages: ['en'],
      secondStory: () => undefined,
      isSunUp: false,
    }),
  ],
}
