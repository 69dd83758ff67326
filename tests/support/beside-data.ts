import type { BesideHalf, SightLine } from '../../server/tours/beside-lines.ts'
import type { Night, Station } from '../../server/tours/night.ts'
import { A_NIGHT } from './field-data.ts'

const at = (text: string): Date => new Date(`2026-11-20T${text}:00Z`)

/** Stations without a telescope, one of each kind. */
export const BESIDE_STATIONS: readonly Station[] = [
  { id: 'guide', name: 'Star walk', kind: 'bare-eye', telescope: null, operator: 'Yusuf', isForChildren: false },
  { id: 'glass', name: 'Two tripods', kind: 'binoculars', telescope: null, operator: '', isForChildren: true },
  { id: 'screen', name: 'White sheet', kind: 'screen', telescope: null, operator: '', isForChildren: false },
  { id: 'table', name: 'Ask us', kind: 'questions', telescope: null, operator: '', isForChildren: false },
]

/** The night of the tests with all of them at the end of its row. */
export const A_MIXED_NIGHT: Night = { ...A_NIGHT, stations: [...A_NIGHT.stations, ...BESIDE_STATIONS] }

const half = { fromAt: at('17:30'), toAt: at('18:00') }
const A_SIGHT: SightLine = {
  what: 'sight',
  targetKey: 'm13',
  fromAt: at('17:30'),
  leave: { at: at('18:40'), cause: { code: 'skyline', name: 'oak' } },
  chance: 0.97,
  view: 0.4,
  altitudeDeg: 24.4,
  azimuthDeg: 292,
  point: 13,
  fists: 2.5,
  remarks: [{ code: 'beside.shown-at', values: { station: 'By the oak' } }, { code: 'beside.glow' }],
}

/** One half hour of each of them, and one more of the guide with nothing to show. */
export const A_BESIDE: readonly BesideHalf[] = [
  {
    stationId: 'guide',
    kind: 'bare-eye',
    ...half,
    lines: [
      A_SIGHT,
      { what: 'pass', targetKey: 'own-bare-eye', fromAt: at('17:42'), toAt: at('17:48'), fromPoint: 12, toPoint: 3 },
    ],
    note: null,
  },
  {
    stationId: 'guide',
    kind: 'bare-eye',
    fromAt: at('18:00'),
    toAt: at('18:30'),
    lines: [],
    note: { code: 'beside.nothing-there' },
  },
  {
    stationId: 'glass',
    kind: 'binoculars',
    ...half,
    lines: [{ ...A_SIGHT, fromAt: at('17:41'), leave: null, chance: 0.6, remarks: [] }],
    note: null,
  },
  {
    stationId: 'screen',
    kind: 'screen',
    ...half,
    lines: [
      {
        what: 'picture',
        targetKey: 'm13',
        aim: 'whole',
        remarks: [{ code: 'beside.screen-hard', values: { station: 'By the oak', newcomers: 62 } }],
      },
    ],
    note: null,
  },
  {
    stationId: 'table',
    kind: 'questions',
    ...half,
    lines: [
      { what: 'elsewhere', stationId: 'station-1', targetKey: 'm13', aim: 'whole', ...half },
      { what: 'elsewhere', stationId: 'guide', targetKey: 'm13', aim: 'whole', fromAt: at('17:45'), toAt: at('18:00') },
      { what: 'prompt', remark: { code: 'beside.ask-cluster' } },
    ],
    note: null,
  },
]
