import { randomBytes } from 'node:crypto'
import type { Database } from 'better-sqlite3'
import { migrate } from '../../db/migrate.ts'
import { openDatabase } from '../../db/open.ts'
import type { Desk } from '../../server/desk/desk.ts'
import { DEFAULT_JOIN_LIMITS } from '../../server/desk/join-tries.ts'
import { joinDesk } from '../../server/desk/joins.ts'
import { sessionDesk } from '../../server/desk/sessions.ts'
import { openStores } from '../../server/desk/stores.ts'
import { DEFAULT_TRY_LIMITS } from '../../server/desk/tries.ts'
import type { Night } from '../../server/tours/night.ts'
import type { Tour } from '../../server/tours/tour.ts'
import { bareMarks } from './bare-marks.ts'
import { standingClock } from './desk-folder.ts'
import { fakeDesk, PIN } from './fake-desk.ts'
import { A_NIGHT, A_SITE, A_TELESCOPE, A_TOUR } from './field-data.ts'

const HOUR_MS = 3_600_000
/** In the middle of the evening of both nights. */
const EVENING = '2026-11-20T18:00:00Z'
/** Of their day: a page that lists the quarter hours since then has a few, and not those of a week. */
const SUNSET_AT = new Date('2026-11-20T15:32:00Z')

const nightOf = (id: string, stationId: string): Night => ({
  ...A_NIGHT,
  id,
  stations: A_NIGHT.stations.map((station) => ({ ...station, id: stationId })),
})
const tourOf = (id: string, night: Night): Tour => ({
  ...A_TOUR,
  id,
  nightId: night.id,
  stops: A_TOUR.stops.map((stop) => ({ ...stop, stationId: night.stations[0]?.id ?? '' })),
  spares: [],
})

/** The night that every phone of the tests has joined, and one that none has. */
export const OWN = nightOf('night-1', 'station-1')
export const OTHER = nightOf('night-2', 'station-2')
export const OWN_TOUR = tourOf('tour-1', OWN)

/** A fake desk on two nights whose sessions, codes and marks are the real ones, in memory; and everyone let in who can be. */
export async function joinedDesk(db = openDatabase(':memory:'), through: (db: Database) => Database = (same) => same) {
  migrate(db)
  const stores = openStores(through(db))
  const tours = [OWN_TOUR, tourOf('tour-2', OTHER)]
  stores.sites.add(A_SITE)
  stores.telescopes.add(A_TELESCOPE)
  for (const night of [OWN, OTHER]) stores.nights.add(night)
  for (const tour of tours) stores.tours.add(tour)
  const clock = standingClock(EVENING)
  let nowMs = clock.now().getTime()
  const door = { ...stores, heard: new Map<string, number>(), nowMs: () => nowMs }
  const marks = bareMarks(stores, clock, () => OWN_TOUR)
  const { desk } = fakeDesk({
    sites: [A_SITE],
    telescopes: [A_TELESCOPE],
    nights: [OWN, OTHER],
    tours,
    marks: [],
    wishes: [],
    tokens: new Set(),
  })
  const real = {
    sessions: await sessionDesk({ ...door, pin: PIN, limits: DEFAULT_TRY_LIMITS }),
    joins: joinDesk({ ...door, clock, secret: randomBytes(32), limits: DEFAULT_JOIN_LIMITS }),
  }
  const sky: Desk['sky'] = {
    ...desk.sky,
    evening: (...asked) => ({ ...desk.sky.evening(...asked), sunsetAt: SUNSET_AT }),
  }
  nowMs -= 13 * HOUR_MS
  const before = await letIn(real)
  nowMs += 13 * HOUR_MS
  return { desk: { ...desk, ...real, marks, sky }, clock, before, now: await letIn(real), close: () => db.close() }
}

/** One session of each kind, as the host and the phones get it. */
async function letIn({ sessions, joins }: Pick<Desk, 'sessions' | 'joins'>) {
  const join = (secret: string, role: 'operator' | 'helper' = 'operator') =>
    joins.join({ secret, role, name: 'Ada', phoneMs: null, address: '192.168.50.77' })
  const { code } = joins.codes(OWN.id)
  const revoked = (phone: ReturnType<typeof join>) => {
    joins.revoke(OWN.id, phone.phone.id)
    return phone.token
  }
  const quick = () => join(joins.openWindow(OWN.id).digits)
  const confirmed = quick()
  joins.confirm(OWN.id, confirmed.phone.id)
  const signedOut = await sessions.signIn(PIN)
  sessions.signOut(signedOut)
  return {
    host: await sessions.signIn(PIN),
    hostSignedOut: signedOut,
    operator: join(code).token,
    helper: join(code, 'helper').token,
    hostPhone: join(joins.pair(OWN.id)).token,
    quickConfirmed: confirmed.token,
    quickPending: quick().token,
    operatorRevoked: revoked(join(code)),
    helperRevoked: revoked(join(code, 'helper')),
    hostPhoneRevoked: revoked(join(joins.pair(OWN.id))),
  }
}
