import type { ObjectTonight, StationTonight } from '../../server/tours/object-tonight.ts'
import type { ObjectHit } from '../../server/tours/target.ts'

const at = (text: string): Date => new Date(`2026-11-20T${text}:00Z`)

const STATION: StationTonight = {
  stationId: 'station-1',
  aim: 'whole',
  setup: { tubeId: 'tube-1', eyepieceId: 'eyepiece-1', powerX: 48, trueFieldDeg: 1.2 },
  beside: null,
  quarters: [
    { at: at('17:00'), chance: 0.4, view: 0.5, cause: { code: 'skyline', name: 'oak' } },
    { at: at('17:15'), chance: 0.6, view: 0.5, cause: null },
    { at: at('17:30'), chance: 0.8, view: 0.6, cause: null },
  ],
  bestAt: at('17:30'),
  sighting: {
    chance: 0.8,
    chanceLow: 0.7,
    chanceHigh: 0.9,
    marginMag: 1,
    limitMag: 9,
    view: 0.6,
    word: 'most',
    reasons: [{ code: 'sight.moonlight', values: { mag: 0.4 }, magnitudes: 0.4 }],
    sky: { siteCd: 0.001, moonCd: 0.002, twilightCd: 0, totalCd: 0.003, magPerArcsec2: 19.1 },
  },
  stops: [{ startsAt: at('17:15'), endsAt: at('17:45') }],
}

/** An object that comes out from behind an oak and stays to the end. */
export const A_TONIGHT: ObjectTonight = {
  targetKey: 'm13',
  at: at('17:30'),
  walk: [
    { at: at('17:00'), altitudeDeg: 12, azimuthDeg: 300, skylineDeg: 20, isClear: false },
    { at: at('17:30'), altitudeDeg: 30, azimuthDeg: 310, skylineDeg: 10, isClear: true },
  ],
  clear: [{ fromAt: at('17:10'), untilAt: at('19:00'), before: { code: 'skyline', name: 'oak' }, after: null }],
  sky: STATION.sighting.sky,
  stations: [STATION],
  verdict: [{ code: 'why.on-tour', values: { station: 'By the oak', from: '18:15', to: '18:45' } }],
}

/** The same on a night on which nothing can be shown of it. */
export const NEVER_TONIGHT: ObjectTonight = {
  ...A_TONIGHT,
  walk: [],
  clear: [],
  sky: null,
  stations: [],
  verdict: [{ code: 'why.set' }],
}

export const A_HIT: ObjectHit = {
  key: 'm13',
  name: 'Great cluster in Hercules',
  kind: 'globular',
  constellation: 'Her',
  magnitude: 5.8,
  raDeg: 250.4,
  decDeg: 36.5,
  isOutreach: true,
}
