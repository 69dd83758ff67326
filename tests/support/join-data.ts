import type { Who } from '../../server/desk/desk.ts'
import type { JoinDesk, PhoneNow } from '../../server/desk/joins.ts'
import { notFound } from '../../server/errors.ts'

const MADE_AT = new Date('2026-12-17T16:00:00Z')

/** The host at the laptop. */
export const THE_HOST: Who = {
  id: 'phone-host',
  role: 'host',
  name: 'host',
  nightId: null,
  stationId: null,
  isConfirmed: true,
  aheadSec: null,
  madeAt: MADE_AT,
  expiresAt: new Date('2026-12-18T04:00:00Z'),
}

/** A phone at the first station of the night. */
export const A_PHONE: Who = {
  ...THE_HOST,
  id: 'phone-1',
  role: 'operator',
  name: 'Ada',
  nightId: 'night-1',
  stationId: 'station-1',
  aheadSec: 2,
}

/** A phone as the board lists it: heard just now, its clock right. */
export const A_PHONE_NOW: PhoneNow = { ...A_PHONE, silentSec: 40 }

/** One that has joined quickly, and waits for the host. */
export const A_WAITING_PHONE: PhoneNow = {
  ...A_PHONE_NOW,
  id: 'phone-2',
  name: 'Ben',
  stationId: null,
  isConfirmed: false,
  aheadSec: null,
  silentSec: 3,
}

/** Letting phones in, where nobody comes. */
export const fakeJoins: JoinDesk = {
  codes: () => ({ token: 'AAAAAAAAAAAAAAAAAAAAAA', code: '4F7K92QX' }),
  turn() {},
  join() {
    throw notFound('phone')
  },
  openWindow: () => ({ digits: '4711', secondsLeft: 60, triesLeft: 5 }),
  window: () => null,
  pair: () => 'BBBBBBBBBBBBBBBBBBBBBB',
  pairing: () => null,
  confirm() {},
  revoke() {},
  stand() {},
  phones: () => [A_PHONE_NOW],
  isJoinable: () => true,
  network: () => null,
  useNetwork() {},
}
