import { type WishesPage, wishesPage } from '../../server/web/pages/wishes.ts'
import { A_NIGHT } from './field-data.ts'
import { HOST, NAMES, UNTOLD, VISITOR } from './page-data.ts'
import { A_HIT } from './tonight-data.ts'
import { TOLD_WISHES } from './wish-data.ts'

/** The page of wishes with all that it can say, and with nothing. */
export const THE_WISHES: readonly [full: WishesPage, empty: WishesPage] = [
  wishesPage(HOST, {
    night: A_NIGHT,
    hasTour: true,
    told: TOLD_WISHES,
    names: NAMES,
    query: 'her',
    hits: [A_HIT],
    state: { values: {}, problems: [{ field: 'targetKey', key: 'wish.would-not' }] },
  }),
  wishesPage(VISITOR, {
    night: { ...A_NIGHT, visitors: [], stations: [] },
    hasTour: false,
    told: [],
    names: UNTOLD,
    query: '',
    hits: [],
    state: { values: {}, problems: [] },
  }),
]
