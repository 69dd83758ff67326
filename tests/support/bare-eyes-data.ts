import type { BareEyesMonth } from '../../server/tours/bare-eyes-month.ts'
import type { ShowObject } from '../../server/tours/target.ts'
import { AN_OBJECT } from './field-data.ts'

const at = (text: string): Date => new Date(`${text}:00Z`)
const GEMINIDS: ShowObject = {
  ...AN_OBJECT,
  key: 'shower-gem',
  name: 'Geminids',
  kind: 'meteor-shower',
  shower: { peakSunDeg: 262.2, fromSunDeg: 252, toSunDeg: 268, zhr: 150, speedKmS: 35 },
}

/** Weeks with something of each sort. */
export const A_BARE_MONTH: BareEyesMonth = {
  sun: 'sets',
  planets: [
    { key: 'jupiter', isNow: true, at: at('2026-11-20T20:10'), point: 4, fists: 2.5 },
    { key: 'venus', isNow: false, at: at('2026-12-08T16:20'), point: 10, fists: 1 },
  ],
  showers: [{ object: GEMINIDS, peakAt: at('2026-12-14T09:00'), mostPerHour: 143, isMoonBright: false }],
  sights: [{ ...AN_OBJECT, key: 'eye-one', name: 'The Horse and Rider', kind: 'bare-eye' }],
  moons: [
    { quarter: 'first-quarter', at: at('2026-11-20T22:00') },
    { quarter: 'full', at: at('2026-11-28T09:00') },
    { quarter: 'last-quarter', at: at('2026-12-05T12:00') },
    { quarter: 'new', at: at('2026-12-12T18:00') },
  ],
}

/** Weeks of a polar summer, in which no evening comes. */
export const A_BRIGHT_MONTH: BareEyesMonth = {
  sun: 'stays-up',
  planets: [],
  showers: [],
  sights: [],
  moons: A_BARE_MONTH.moons,
}
