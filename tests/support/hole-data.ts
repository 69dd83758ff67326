import type { Hole } from '../../server/tours/hole.ts'
import type { Missing } from '../../server/tours/missing.ts'
import { A_LINE } from './page-data.ts'

const at = new Date('2026-11-20T17:30:00Z')

/** A hole in the north-west with one thing for one telescope. */
export const A_HOLE: Hole = {
  at,
  open: ['w', 'nw'],
  stations: [
    {
      stationId: 'station-1',
      lines: [
        {
          ...A_LINE,
          part: 'w',
          setups: [{ tubeId: 'tube-1', eyepieceId: 'eyepiece-1', powerX: 48, trueFieldDeg: 1.1 }],
          chance: 0.97,
          view: 0.7,
          isEasy: true,
        },
      ],
    },
    { stationId: 'station-2', lines: [] },
  ],
  note: null,
  meanwhile: [{ code: 'hole.talk-about', values: { name: 'Great cluster in Hercules' } }, { code: 'hole.warm' }],
}

/** No part of the sky open, for a row without a telescope. */
export const A_SHUT_HOLE: Hole = {
  at,
  open: [],
  stations: [],
  note: { code: 'hole.shut' },
  meanwhile: [{ code: 'hole.talk' }, { code: 'hole.hands' }],
}

/** Showpieces that are not shown: behind an oak and outdone, too high in between, never in the open. */
export const A_MISSING: readonly Missing[] = [
  {
    targetKey: 'm42',
    name: 'Orion Nebula',
    barred: { cause: { code: 'skyline', name: 'oak' }, fromAt: null, untilAt: new Date('2026-11-20T19:10:00Z') },
    reason: { code: 'missing.more-delight', values: { station: 'By the oak', time: '20:15', name: 'Saturn' } },
  },
  {
    targetKey: 'm31',
    name: 'Andromeda Galaxy',
    barred: {
      cause: { code: 'high' },
      fromAt: new Date('2026-11-20T17:30:00Z'),
      untilAt: new Date('2026-11-20T19:25:00Z'),
    },
    reason: { code: 'missing.faint', values: { newcomers: 31 } },
  },
  {
    targetKey: 'hip95947',
    name: 'Albireo',
    barred: { cause: { code: 'skyline', name: '' }, fromAt: new Date('2026-11-20T18:00:00Z'), untilAt: null },
    reason: { code: 'missing.brief', values: { count: 1 } },
  },
]
