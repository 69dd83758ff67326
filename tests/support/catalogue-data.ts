import { readTopics } from '../../db/catalogue/topic-words.ts'
import type { ShowObject, Story } from '../../server/tours/target.ts'
import { AN_OBJECT } from './field-data.ts'

const cluster = (given: Partial<ShowObject>): ShowObject => ({ ...AN_OBJECT, kind: 'open-cluster', ...given })

/** The words to search by that ship. */
export const TOPICS = { en: readTopics('en'), de: readTopics('de') }

/** An outreach list small enough to know by heart. */
export const A_FEW_OBJECTS: readonly ShowObject[] = [
  AN_OBJECT,
  cluster({ key: 'm1', name: 'Crab Nebula', designations: ['M 1', 'NGC 1952'], kind: 'remnant', constellation: 'Tau' }),
  cluster({
    key: 'ngc869',
    name: 'Double Cluster',
    designations: ['NGC 869', 'NGC 884', 'h Per'],
    constellation: 'Per',
  }),
  cluster({
    key: 'ngc7000',
    name: 'North America Nebula',
    designations: ['NGC 7000'],
    kind: 'nebula',
    constellation: 'Cyg',
  }),
  cluster({ key: 'mel25', name: 'Hyades', designations: ['Mel 25'], constellation: 'Tau', appeal: 0.9 }),
  cluster({
    key: 'hip91262',
    name: 'Vega',
    designations: ['Alpha Lyrae'],
    kind: 'star',
    constellation: 'Lyr',
    magnitude: 0.03,
  }),
  cluster({
    key: 'saturn',
    name: 'Saturn',
    designations: [],
    kind: 'planet',
    body: 'saturn',
    constellation: null,
    raDeg: null,
    decDeg: null,
    appeal: 1,
  }),
  cluster({
    key: 'hip104214',
    name: '61 Cygni',
    designations: ['61 Cyg', 'HIP 104217'],
    kind: 'double',
    constellation: 'Cyg',
    appeal: 0.5,
  }),
]

export const A_STORY: Story = {
  key: 'm13',
  language: 'en',
  see: 'A round grey glow.',
  lookFor: 'Grains at its edge.',
  how: 'Look a little beside it.',
  compare: 'A snowball seen across a field.',
  answer: 'Hundreds of thousands of stars.',
  children: 'Older than the dinosaurs.',
  more: '',
  sources: { see: 'from memory' },
}
