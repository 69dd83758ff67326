import type { PhoneAddress } from '../../server/web/addresses.ts'
import type { Pages } from '../../server/web/pages/index.ts'
import { joinPage } from '../../server/web/pages/join.ts'
import { type PhonesSubject, phonesPage } from '../../server/web/pages/phones.ts'
import { A_NIGHT } from './field-data.ts'
import { A_PHONE, A_PHONE_NOW, A_WAITING_PHONE } from './join-data.ts'
import { HOST, VISITOR } from './page-data.ts'

const CODES = { token: 'AbCdEfGhIjKlMnOpQrStUv', code: '4F7K92QX' }
const ADDRESSES: readonly PhoneAddress[] = [
  { network: 'hotspot', address: '192.168.137.1' },
  { network: 'wlan0', address: '192.168.1.23' },
]

/** An evening under way: phones of every kind, a window open, and a picture for the host's own phone. */
export const BUSY: PhonesSubject = {
  night: A_NIGHT,
  hasTour: true,
  addresses: ADDRESSES,
  isOpen: true,
  port: 8080,
  codes: CODES,
  isJoinable: true,
  window: { digits: '0471', secondsLeft: 42, triesLeft: 4 },
  pairing: { token: 'VuTsRqPoNmLkJiHgFeDcBa', secondsLeft: 540 },
  phones: [
    A_PHONE_NOW,
    { ...A_PHONE_NOW, id: 'phone-3', name: 'Cem', role: 'helper', stationId: null, aheadSec: -725, silentSec: 410 },
    {
      ...A_PHONE_NOW,
      id: 'phone-4',
      name: 'Host',
      role: 'host-phone',
      stationId: null,
      aheadSec: null,
      silentSec: null,
    },
    A_WAITING_PHONE,
  ],
  marksInTenMin: 42,
  freeBytes: 120e9,
}

/** Long before the night, on a laptop that answers itself alone. */
export const SHUT: PhonesSubject = {
  ...BUSY,
  hasTour: false,
  addresses: [],
  isOpen: false,
  isJoinable: false,
  window: null,
  pairing: null,
  phones: [],
  marksInTenMin: 0,
  freeBytes: null,
}

const WRONG_CODE = {
  values: { code: '4F7K 92QY', name: 'Ada', role: 'helper' },
  problems: [{ field: 'code', key: 'fault.wrong-code' }],
}
const BLANK = { values: {}, problems: [] }
export const A_JOIN_CARD = { night: A_NIGHT, addresses: ADDRESSES, port: 8080, codes: CODES }

type PhonePages = Pick<
  { readonly [Name in keyof Pages]: readonly [full: Pages[Name], empty: Pages[Name]] },
  'join' | 'phones'
>

export const PHONE_PAGES: PhonePages = {
  join: [
    joinPage(VISITOR, { who: undefined, isGone: true, form: WRONG_CODE, isHosts: false, look: 'lamp' }),
    joinPage(VISITOR, { who: { ...A_PHONE, aheadSec: 75 }, isGone: false, form: BLANK, isHosts: true, look: 'day' }),
  ],
  phones: [phonesPage(HOST, BUSY), phonesPage(HOST, SHUT)],
}
