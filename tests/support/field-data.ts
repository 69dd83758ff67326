import type { BodyLook } from '../../server/sky/body.ts'
import { DEFAULT_SETTINGS, type Night, type NightDraft } from '../../server/tours/night.ts'
import type { Site, SiteDraft } from '../../server/tours/site.ts'
import type { ShowObject } from '../../server/tours/target.ts'
import type { Telescope, TelescopeDraft } from '../../server/tours/telescope.ts'
import type { Tour } from '../../server/tours/tour.ts'

export const SITE_DRAFT: SiteDraft = {
  name: 'Sheep meadow',
  latitudeDeg: 48.2,
  longitudeDeg: 11.6,
  heightM: 520,
  zone: 'Europe/Berlin',
  skyMag: 20,
  horizon: [{ azimuthDeg: 90, altitudeDeg: 12, name: 'oak' }],
  glow: [{ fromDeg: 350, toDeg: 20, brighterMag: 1 }],
}
export const A_SITE: Site = { ...SITE_DRAFT, id: 'site-1' }

export const TELESCOPE_DRAFT: TelescopeDraft = {
  name: 'Old eight inch',
  mount: 'altaz-hand',
  tubes: [
    {
      name: 'main',
      design: 'reflector',
      apertureMm: 203,
      focalLengthMm: 1200,
      obstruction: 0.25,
      transmission: 0.8,
      hasDiagonal: false,
    },
  ],
  eyepieces: [{ name: 'wide', focalLengthMm: 25, apparentFieldDeg: 52, fieldStopMm: null }],
  axisLowCm: 70,
  axisHighCm: 70,
  chairReach: 'side',
  floorDeg: 10,
  ceilingDeg: 85,
}
export const A_TELESCOPE: Telescope = {
  ...TELESCOPE_DRAFT,
  id: 'telescope-1',
  tubes: TELESCOPE_DRAFT.tubes.map((tube, i) => ({ ...tube, id: `tube-${i + 1}` })),
  eyepieces: TELESCOPE_DRAFT.eyepieces.map((eyepiece, i) => ({ ...eyepiece, id: `eyepiece-${i + 1}` })),
  factors: [],
}

export const NIGHT_DRAFT: NightDraft = {
  title: 'Moon over the meadow',
  siteId: 'site-1',
  date: '2026-11-20',
  opens: '18:30',
  closes: '21:30',
  visitors: [{ startsAt: '18:30', adults: 20, children: 15, seated: 1 }],
  stations: [
    { name: 'By the oak', kind: 'telescope', telescopeId: 'telescope-1', operator: 'Ines', isForChildren: false },
  ],
  settings: DEFAULT_SETTINGS,
}
export const A_NIGHT: Night = {
  id: 'night-1',
  state: 'planned',
  title: NIGHT_DRAFT.title,
  date: NIGHT_DRAFT.date,
  opens: NIGHT_DRAFT.opens,
  closes: NIGHT_DRAFT.closes,
  visitors: NIGHT_DRAFT.visitors,
  settings: NIGHT_DRAFT.settings,
  site: A_SITE,
  stations: [
    {
      id: 'station-1',
      name: 'By the oak',
      kind: 'telescope',
      telescope: A_TELESCOPE,
      operator: 'Ines',
      isForChildren: false,
    },
  ],
}

export const AN_OBJECT: ShowObject = {
  key: 'm13',
  name: 'Great cluster in Hercules',
  designations: ['M 13', 'NGC 6205'],
  kind: 'globular',
  body: null,
  parent: null,
  raDeg: 250.42,
  decDeg: 36.46,
  pmRaMasYr: 0,
  pmDecMasYr: 0,
  parallaxMas: 0,
  constellation: 'Her',
  magnitude: 5.8,
  magnitudeBand: 'V',
  magnitudeRange: null,
  bv: null,
  majorArcmin: 20,
  minorArcmin: 20,
  halfLightArcmin: 1.7,
  branchMag: null,
  coreMagnitude: null,
  coreArcmin: null,
  condensation: null,
  angleDeg: null,
  brightestStarMag: 11.9,
  starCount: null,
  starMagnitudes: [],
  componentMagnitudes: null,
  separationArcsec: null,
  pairAngleDeg: null,
  pairYear: null,
  colours: null,
  hips: [],
  fieldDeg: 0.6,
  features: [],
  shower: null,
  distanceLy: 23000,
  distancePercent: null,
  ageMyr: null,
  note: null,
  appeal: 0.7,
  appealReason: 'a ball of stars',
  atOnce: 1,
  sources: {},
}

const SETUP = { tubeId: 'tube-1', eyepieceId: 'eyepiece-1', powerX: 48, trueFieldDeg: 1.1 }

export const A_TOUR: Tour = {
  id: 'tour-1',
  nightId: 'night-1',
  version: 1,
  madeAt: new Date('2026-11-14T15:00:00Z'),
  why: 'first',
  seed: 1,
  steps: 1000,
  inputsDigest: 'abc',
  tookOverAtSeq: 0,
  value: 90,
  bound: 100,
  seconds: 1.5,
  stops: [
    {
      stationId: 'station-1',
      targetKey: 'm13',
      aim: 'whole',
      setups: [SETUP],
      startsAt: new Date('2026-11-20T17:30:00Z'),
      endsAt: new Date('2026-11-20T18:00:00Z'),
      leaveBy: { at: new Date('2026-11-20T18:40:00Z'), cause: { code: 'skyline', name: 'oak' } },
      chance: 0.8,
      view: 0.6,
      looks: 30,
      reasons: [{ code: 'tour.sets-first', values: { target: 'm13' } }],
    },
  ],
  spares: [
    {
      targetKey: 'm13',
      stationId: 'station-1',
      setups: [SETUP],
      fromAt: new Date('2026-11-20T18:00:00Z'),
      untilAt: new Date('2026-11-20T18:40:00Z'),
      cause: { code: 'low' },
      chance: 0.5,
    },
  ],
  notices: [],
}

export const THE_MOON: BodyLook = {
  key: 'moon',
  raDeg: 330,
  decDeg: -10,
  altitudeDeg: 25,
  azimuthDeg: 190,
  distanceAu: 0.00257,
  magnitude: -11.2,
  diameterArcsec: 1860,
  phaseAngleDeg: 80,
  litFraction: 0.6,
  elongationDeg: 100,
}
