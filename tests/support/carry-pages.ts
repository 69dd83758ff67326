import { CARRIED_PARTS } from '../../server/desk/carry-part.ts'
import { type CarryPage, carryPage } from '../../server/web/pages/carry.ts'
import { HOST } from './page-data.ts'

const NOTHING = { text: '', take: false, problems: [], brought: null }

/** The page on which a file is brought in: once with all that it can say, once with nothing. */
export const CARRY_PAGES: { readonly carry: readonly [full: CarryPage, empty: CarryPage] } = {
  carry: [
    carryPage(HOST, {
      kind: 'night',
      text: '{"format":"duskrow-night"',
      take: false,
      problems: [
        { field: '', key: 'carry.damaged' },
        { field: 'site.latitudeDeg', key: 'problem.range', values: { minimum: -90, maximum: 90 } },
      ],
      brought: {
        nightId: 'night-1',
        isNewNight: true,
        marks: 4,
        programmes: 2,
        parts: 1,
        differs: [...CARRIED_PARTS],
      },
    }),
    carryPage(HOST, { ...NOTHING, kind: 'things' }),
  ],
}
