import type { AlignmentPair } from '../../server/tours/alignment.ts'

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
