import type { SetUp } from '../../server/desk/alignment.ts'
import type { AlignmentPair } from '../../server/tours/alignment.ts'
import { setUpTimes } from '../../server/tours/set-up-times.ts'

/** Vega alone and Capella beside Jupiter, with the Moon as proof. */
export const A_PAIR: AlignmentPair = {
  stars: [
    {
      key: 'hip91262',
      name: 'Vega',
      magnitude: 0.03,
      colour: 'white',
      isNearPole: false,
      direction: { altitudeDeg: 40, azimuthDeg: 290 },
      lookAlike: null,
    },
    {
      key: 'hip24608',
      name: 'Capella',
      magnitude: 0.08,
      colour: 'yellow',
      isNearPole: false,
      direction: { altitudeDeg: 30, azimuthDeg: 55 },
      lookAlike: {
        key: 'jupiter',
        name: 'Jupiter',
        kind: 'planet',
        magnitude: -2.4,
        separationDeg: 6,
        tell: [{ code: 'align.rival-lower-left', values: { name: 'Capella', rival: 'Jupiter' } }],
      },
    },
  ],
  separationDeg: 92,
  azimuthApartDeg: 125,
  meanErrorFactor: 1.25,
  proof: {
    key: 'moon',
    name: 'Moon',
    kind: 'moon',
    magnitude: -10,
    colour: null,
    direction: { altitudeDeg: 34, azimuthDeg: 181 },
  },
}

/** The evening of the tests' night: the Sun sets at 16:32 by its clocks, and stars are out at 17:05. */
export const A_SET_UP: SetUp = {
  sun: 'sets',
  times: setUpTimes({
    sunsetAt: new Date('2026-11-20T15:32:00Z'),
    starsFromAt: new Date('2026-11-20T16:05:00Z'),
    opensAt: new Date('2026-11-20T17:30:00Z'),
    closesAt: new Date('2026-11-20T20:30:00Z'),
  }),
  pairs: [A_PAIR],
}
/** An evening on which the Sun stays up. */
export const A_LIGHT_SET_UP: SetUp = {
  sun: 'stays-up',
  times: setUpTimes({
    sunsetAt: null,
    starsFromAt: null,
    opensAt: new Date('2026-11-20T17:30:00Z'),
    closesAt: new Date('2026-11-20T20:30:00Z'),
  }),
  pairs: [],
}
