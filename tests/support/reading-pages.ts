import type { Pages } from '../../server/web/pages/index.ts'
import { readingPage } from '../../server/web/pages/reading.ts'
import { signInPage } from '../../server/web/pages/sign-in.ts'
import { ENGLISH, HOST, VISITOR } from './page-data.ts'

const SUBJECT = {
  options: { lang: ['de', 'en'], units: ['metric', 'imperial', 'both'], hours: ['24', '12'] },
  usual: ENGLISH.settings,
  from: '/nights',
}
const WRONG_PIN = { values: {}, problems: [{ field: 'pin', key: 'fault.wrong-pin' }] }

/** How somebody reads, for the host who has just chosen and for a visitor who has not; and who somebody is. */
export const READING_PAGES: {
  readonly [Page in 'reading' | 'sign-in']: readonly [full: Pages[Page], empty: Pages[Page]]
} = {
  reading: [
    readingPage(HOST, { ...SUBJECT, hasChosen: true, look: 'lamp' }),
    readingPage(VISITOR, { ...SUBJECT, hasChosen: false, look: 'day' }),
  ],
  'sign-in': [signInPage(VISITOR, WRONG_PIN, '/nights'), signInPage(VISITOR, { values: {}, problems: [] }, '/')],
}
