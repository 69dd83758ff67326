import { ownWordsOf, together } from '../../server/tours/own-words.ts'
import type { Pages } from '../../server/web/pages/index.ts'
import { ownFormPage } from '../../server/web/pages/own-form.ts'
import { ownImportPage } from '../../server/web/pages/own-import.ts'
import { ownObjectsPage } from '../../server/web/pages/own-objects.ts'
import { ownWordsPage } from '../../server/web/pages/own-words.ts'
import { A_NIGHT, AN_OBJECT } from './field-data.ts'
import { A_CLUSTER_DRAFT, A_COMET_DRAFT, A_DOUBLE_DRAFT, A_PASS_DRAFT, ownThing } from './own-object-data.ts'
import { A_STORY, HOST, VISITOR } from './page-data.ts'

type Name = 'own-objects' | 'own-form' | 'own-import' | 'own-words'

const BLANK = { values: {}, problems: [] }
const WRONG = {
  values: { name: '', raDeg: 'north' },
  problems: [
    { field: 'name', key: 'problem.required' },
    { field: 'raDeg', key: 'problem.right-ascension' },
  ],
}
const OWN_WORDS = ownWordsOf({ see: 'A ball of sparks.' }, A_STORY)
const TOLD = {
  key: 'm13',
  language: 'en',
  shipped: A_STORY,
  nightId: null,
  own: OWN_WORDS,
  story: together({ key: 'm13', language: 'en', shipped: A_STORY, own: OWN_WORDS }),
}

/** The pages of what a host enters and writes, each once with all that it can say and once with nothing. */
export const OWN_PAGES: { readonly [Page in Name]: readonly [full: Pages[Page], empty: Pages[Page]] } = {
  'own-objects': [
    ownObjectsPage(HOST, {
      things: [
        ...[A_COMET_DRAFT, A_CLUSTER_DRAFT, A_DOUBLE_DRAFT, A_PASS_DRAFT].map((draft) => ownThing(draft)),
        ownThing(A_COMET_DRAFT, { key: 'own-retired', isListed: false }),
      ],
      nights: [A_NIGHT],
      added: 2,
      problems: WRONG.problems,
    }),
    ownObjectsPage(VISITOR, { things: [], nights: [], added: null, problems: [] }),
  ],
  'own-form': [ownFormPage(HOST, { key: 'own-comet', state: WRONG }), ownFormPage(HOST, { key: null, state: BLANK })],
  'own-import': [
    ownImportPage(HOST, {
      list: 'name',
      problems: [
        { line: 1, column: 'kind', key: 'problem.column-missing' },
        { line: 2, column: '', key: 'problem.csv-quotes' },
      ],
    }),
    ownImportPage(HOST, { list: '', problems: [] }),
  ],
  'own-words': [
    ownWordsPage(HOST, {
      name: AN_OBJECT.name,
      told: TOLD,
      languages: ['de', 'en'],
      state: { values: { see: 'x' }, problems: [{ field: 'see', key: 'problem.too-long', values: { maximum: 180 } }] },
      strangeLanguage: 'zz9',
      tonight: { night: A_NIGHT, isAlways: false },
    }),
    ownWordsPage(VISITOR, {
      name: AN_OBJECT.name,
      told: {
        ...TOLD,
        shipped: null,
        own: {},
        story: together({ key: 'm13', language: 'de', shipped: null, own: {} }),
      },
      languages: [],
      state: null,
      strangeLanguage: null,
      tonight: null,
    }),
  ],
}
