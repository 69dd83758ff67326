import type { FaultAsk, FaultFinding } from '../../server/desk/fault-slices.ts'
import type { FaultThing } from '../../server/tours/faults.ts'
import { aloudPage } from '../../server/web/pages/aloud.ts'
import { type FaultsSubject, faultsPage } from '../../server/web/pages/faults.ts'
import type { Pages } from '../../server/web/pages/index.ts'
import { A_NIGHT } from './field-data.ts'
import { HOST, VISITOR } from './page-data.ts'

const still = { pmRaMasYr: 0, pmDecMasYr: 0, parallaxMas: 0 }
const VEGA: FaultThing = {
  key: 'hip91262',
  name: 'Vega',
  magnitude: 0.03,
  place: { raDeg: 279.23, decDeg: 38.78, ...still },
}
const CAPELLA: FaultThing = {
  key: 'hip24608',
  name: 'Capella',
  magnitude: 0.08,
  place: { raDeg: 79.17, decDeg: 46, ...still },
}
const THE_MOON: FaultThing = { key: 'moon', name: 'Moon', magnitude: -10, place: 'moon' }
const M13: FaultThing = {
  key: 'm13',
  name: 'Great cluster in Hercules',
  magnitude: 5.8,
  place: { raDeg: 250.4, decDeg: 36.5, ...still },
}

export const AN_ASK: FaultAsk = {
  stage: 'both',
  centredKeys: ['hip91262', 'hip24608'],
  aimedKey: 'moon',
  seen: { kind: 'off', rightDeg: 0.5, upDeg: -0.2, noiseDeg: 0.5 },
}

/** Two causes that the Moon half a degree off does not tell apart, and one that is less likely. */
export const A_FINDING: FaultFinding = {
  things: { bodies: [THE_MOON], stars: [VEGA, CAPELLA], targets: [M13] },
  answer: {
    causes: [
      { cause: 'hour', miss: { rightDeg: 0.5, upDeg: -0.1 }, share: 0.6, isTied: true },
      { cause: 'finder', miss: { rightDeg: 0.5, upDeg: -0.2 }, share: 0.3, isTied: true },
      { cause: 'other-site', miss: { rightDeg: 0, upDeg: 72 }, share: 0.1, isTied: false },
    ],
    next: {
      thing: VEGA,
      misses: [
        { cause: 'hour', miss: { rightDeg: 0, upDeg: 0.1 } },
        { cause: 'finder', miss: { rightDeg: 12.4, upDeg: -3.6 } },
      ],
    },
  },
}
const NO_FINDING: FaultFinding = { things: { bodies: [], stars: [], targets: [] }, answer: null }

const at = new Date('2026-11-20T17:30:00Z')

export const A_FAULT: FaultsSubject = {
  night: A_NIGHT,
  at,
  look: 'lamp',
  values: {
    stage: 'both',
    first: 'hip91262',
    second: 'hip24608',
    aimed: 'moon',
    seen: 'off',
    side: '0,5',
    height: 'x',
  },
  ask: AN_ASK,
  problems: [
    { field: 'stage', key: 'faults.needs-stage' },
    { field: 'second', key: 'faults.needs-two' },
    { field: 'aimed', key: 'faults.needs-other' },
    { field: 'seen', key: 'faults.needs-seen' },
    { field: 'side', key: 'faults.needs-number' },
  ],
  finding: A_FINDING,
}

/** The pages of setting up that ask and say, each once with all that it can say and once with nothing. */
export const FAULT_PAGES: {
  readonly [Page in 'aloud' | 'faults']: readonly [full: Pages[Page], empty: Pages[Page]]
} = {
  aloud: [
    aloudPage(HOST, { night: A_NIGHT, sun: 'sets', hasTour: true, look: 'lamp' }),
    aloudPage(VISITOR, {
      night: { ...A_NIGHT, date: '2026-03-28', stations: [] },
      sun: 'stays-up',
      hasTour: false,
      look: 'day',
    }),
  ],
  faults: [
    faultsPage(HOST, A_FAULT),
    faultsPage(VISITOR, {
      night: { ...A_NIGHT, stations: [] },
      at,
      look: 'day',
      values: {},
      ask: null,
      problems: [],
      finding: NO_FINDING,
    }),
  ],
}
