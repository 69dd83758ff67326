import type { Telescope } from '../../server/tours/telescope.ts'
import type { Pages } from '../../server/web/pages/index.ts'
import { telescopePage } from '../../server/web/pages/telescope.ts'
import { telescopeFormPage } from '../../server/web/pages/telescope-form.ts'
import { telescopesPage } from '../../server/web/pages/telescopes.ts'
import { A_NIGHT, A_SITE, A_TELESCOPE } from './field-data.ts'
import { HOST, VISITOR } from './page-data.ts'

const WITH_BARLOW = { ...A_TELESCOPE, id: 'telescope-2', factors: [{ id: 'factor-1', name: '2x Barlow', factor: 2 }] }
const OLD_FRIEND: Telescope = {
  ...WITH_BARLOW,
  id: 'telescope-3',
  isPutAway: true,
  finder: { kind: 'right-angle', fieldDeg: 6.5, powerX: 8 },
  inKitSince: 1998,
  note: 'Focuser sticks in frost.',
}
const WRONG = {
  values: { name: 'x' },
  problems: [
    { field: 'name', key: 'problem.too-short' },
    { field: 'tubes.0.apertureMm', key: 'problem.range', values: { minimum: 20, maximum: 1500 } },
    { field: 'eyepieces', key: 'problem.no-eyepiece' },
  ],
}

/** The pages of telescopes, each once with all that it can say and once with nothing. */
export const TELESCOPE_PAGES: Pick<
  { readonly [Name in keyof Pages]: readonly [Pages[Name], Pages[Name]] },
  'telescopes' | 'telescope' | 'telescope-form'
> = {
  telescopes: [
    telescopesPage(HOST, [A_TELESCOPE, WITH_BARLOW, OLD_FRIEND], [A_NIGHT]),
    telescopesPage(VISITOR, [], []),
  ],
  telescope: [
    telescopePage(HOST, { telescope: OLD_FRIEND, nights: [A_NIGHT], sites: [A_SITE], sky: '8' }),
    telescopePage(VISITOR, { telescope: A_TELESCOPE, nights: [], sites: [], sky: undefined }),
  ],
  'telescope-form': [
    telescopeFormPage(HOST, {
      id: null,
      state: WRONG,
      rows: { eyepieces: 3, factors: 1 },
      sites: [],
      nights: [],
      asked: null,
    }),
    telescopeFormPage(HOST, {
      id: 'telescope-1',
      state: { values: {}, problems: [] },
      rows: { eyepieces: 12, factors: 3 },
      sites: [A_SITE],
      nights: [A_NIGHT],
      asked: WITH_BARLOW,
    }),
  ],
}
