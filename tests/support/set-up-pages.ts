import { type AlignSubject, alignPage } from '../../server/web/pages/align.ts'
import type { Pages } from '../../server/web/pages/index.ts'
import { setUpPage } from '../../server/web/pages/set-up.ts'
import { A_LIGHT_SET_UP, A_PAIR, A_SET_UP } from './alignment-data.ts'
import { A_NIGHT } from './field-data.ts'
import { HOST, VISITOR } from './page-data.ts'

const at = new Date('2026-11-20T16:30:00Z')

/** The stars at half past five by the clocks of the site. */
export const AN_ALIGN: AlignSubject = {
  night: A_NIGHT,
  at,
  asked: '17:30',
  pairs: [A_PAIR],
  cause: null,
  fromAt: at,
  sun: 'sets',
  isSunUp: false,
  times: [at, new Date('2026-11-20T16:45:00Z')],
  look: 'lamp',
}
/** A night on which the Sun stays up. */
export const A_LIGHT_ALIGN: AlignSubject = {
  ...AN_ALIGN,
  asked: null,
  pairs: [],
  cause: 'sun',
  fromAt: null,
  sun: 'stays-up',
  isSunUp: true,
  times: [],
  look: 'day',
}

type Name = 'align' | 'set-up'

/** The pages of setting up, each once with all that it can say and once with nothing. */
export const SET_UP_PAGES: { readonly [Page in Name]: readonly [full: Pages[Page], empty: Pages[Page]] } = {
  align: [alignPage(HOST, AN_ALIGN), alignPage(VISITOR, A_LIGHT_ALIGN)],
  'set-up': [
    setUpPage({ ...HOST, now: at }, { night: A_NIGHT, setUp: A_SET_UP, look: 'lamp' }),
    setUpPage(
      { ...VISITOR, now: new Date('2026-11-20T22:00:00Z') },
      { night: A_NIGHT, setUp: A_LIGHT_SET_UP, look: 'day' },
    ),
  ],
}
