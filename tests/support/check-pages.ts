import { checkPage } from '../../server/web/pages/check.ts'
import { holePage } from '../../server/web/pages/hole.ts'
import type { Pages } from '../../server/web/pages/index.ts'
import { A_NIGHT } from './field-data.ts'
import { A_HOLE, A_SHUT_HOLE } from './hole-data.ts'
import { A_CHECK, HOST, NAMES, UNTOLD, VISITOR } from './page-data.ts'

type Name = 'check' | 'hole'

const BARE_NIGHT = { ...A_NIGHT, visitors: [], stations: [] }

/** The pages of what stands well placed, each once with all that it can say and once with nothing. */
export const CHECK_PAGES: { readonly [Page in Name]: readonly [full: Pages[Page], empty: Pages[Page]] } = {
  check: [
    checkPage(HOST, A_NIGHT, A_CHECK, [A_CHECK.at], NAMES),
    checkPage(VISITOR, BARE_NIGHT, { at: A_CHECK.at, lines: [], changes: [] }, [], UNTOLD),
  ],
  hole: [
    holePage(HOST, {
      night: A_NIGHT,
      hole: A_HOLE,
      asked: '2026-11-20T17:30:00Z',
      look: 'lamp',
      hasTour: true,
      names: NAMES,
    }),
    holePage(VISITOR, {
      night: BARE_NIGHT,
      hole: A_SHUT_HOLE,
      asked: null,
      look: 'day',
      hasTour: false,
      names: UNTOLD,
    }),
  ],
}
