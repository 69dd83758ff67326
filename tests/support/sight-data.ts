import fc from 'fast-check'
import type { SightAnswer } from '../../server/desk/desk.ts'
import { type Conditions, DEFAULT_CONDITIONS } from '../../server/sight/conditions.ts'
import type { View } from '../../server/sight/optics.ts'
import type { SkyGeometry } from '../../server/sight/sky-brightness.ts'
import type { Subject } from '../../server/sight/subject.ts'

/** A thing of each kind, from memory, good enough to look at. */
export const things = {
  star: { kind: 'star', magnitude: 9.5, bv: null, isRed: false },
  carbon: { kind: 'star', magnitude: 6.5, bv: 3, isRed: true },
  albireo: { kind: 'double', magnitudes: [3.2, 5.1], separationArcsec: 34.6, hasColourContrast: true },
  castor: { kind: 'double', magnitudes: [1.9, 3], separationArcsec: 5.6, hasColourContrast: false },
  pleiades: { kind: 'open-cluster', magnitude: 1.5, diameterArcmin: 110, brightestStarMag: 2.87, starCount: 100 },
  m37: { kind: 'open-cluster', magnitude: 5.6, diameterArcmin: 24, brightestStarMag: 9.2, starCount: 150 },
  unmeasured: { kind: 'open-cluster', magnitude: 6, diameterArcmin: 20, brightestStarMag: null, starCount: null },
  m13: { kind: 'globular', magnitude: 5.8, halfLightArcmin: 1.69 },
  m31: { kind: 'galaxy', magnitude: 3.44, majorArcmin: 190, minorArcmin: 60 },
  m51: { kind: 'galaxy', magnitude: 8.4, majorArcmin: 11, minorArcmin: 7 },
  m57: { kind: 'planetary', magnitude: 8.8, majorArcmin: 1.4, minorArcmin: 1 },
  m42: { kind: 'nebula', magnitude: 4, majorArcmin: 30, minorArcmin: 25 },
  m1: { kind: 'remnant', magnitude: 8.4, majorArcmin: 6, minorArcmin: 4 },
  comet: { kind: 'comet', magnitude: 7, comaArcmin: 8, condensation: 4 },
  heartedGalaxy: {
    kind: 'galaxy',
    magnitude: 3.44,
    majorArcmin: 190,
    minorArcmin: 60,
    core: { magnitude: 6.9, diameterArcmin: 3 },
  },
  coathanger: { kind: 'asterism', magnitude: 3.6, fieldDeg: 1.8 },
  saturn: {
    kind: 'planet',
    body: 'saturn',
    magnitude: 0.8,
    diameterArcsec: 18,
    litFraction: 1,
    ringMajorArcsec: 42,
    ringMinorArcsec: 7,
  },
  jupiter: {
    kind: 'planet',
    body: 'jupiter',
    magnitude: -2.4,
    diameterArcsec: 44,
    litFraction: 1,
    ringMajorArcsec: 0,
    ringMinorArcsec: 0,
    moons: [
      { name: 'Io', magnitude: 5.3, offArcsec: 110, state: 'beside', castsShadow: false },
      { name: 'Europa', magnitude: 5.6, offArcsec: 200, state: 'beside', castsShadow: false },
      { name: 'Ganymede', magnitude: 4.9, offArcsec: 30, state: 'beside', castsShadow: false },
      { name: 'Callisto', magnitude: 6, offArcsec: 15, state: 'before', castsShadow: true },
    ],
  },
  venus: {
    kind: 'planet',
    body: 'venus',
    magnitude: -4.4,
    diameterArcsec: 35,
    litFraction: 0.35,
    ringMajorArcsec: 0,
    ringMinorArcsec: 0,
  },
  neptune: {
    kind: 'planet',
    body: 'neptune',
    magnitude: 7.8,
    diameterArcsec: 2.3,
    litFraction: 1,
    ringMajorArcsec: 0,
    ringMinorArcsec: 0,
  },
  halfMoon: { kind: 'moon', litFraction: 0.5, phaseAngleDeg: 90, diameterArcmin: 31 },
  fullMoon: { kind: 'moon', litFraction: 1, phaseAngleDeg: 2, diameterArcmin: 31 },
} as const satisfies Record<string, Subject>

/** A tube at a power, with an eyepiece of 60 degrees apparent field. */
export const viewAt = (apertureMm: number, powerX: number, obstruction = 0): View => ({
  powerX,
  exitPupilMm: apertureMm / powerX,
  trueFieldDeg: 60 / powerX,
  optics: { apertureMm, focalLengthMm: 1000, obstruction, transmission: 0.88 },
})

/** High up on a moonless night. */
export const darkNight: SkyGeometry = {
  altitudeDeg: 55,
  azimuthDeg: 180,
  sunAltitudeDeg: -30,
  sunSeparationDeg: 120,
  moon: null,
}

/** The same with a half Moon 45 degrees high and 60 away. */
export const moonNight: SkyGeometry = {
  ...darkNight,
  moon: { altitudeDeg: 45, phaseAngleDeg: 90, distanceKm: 384_400, separationDeg: 60 },
}

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true })

export const anyThing: fc.Arbitrary<Subject> = fc.constantFrom(...Object.values(things))

export const anyView: fc.Arbitrary<View> = fc
  .tuple(number(40, 500), number(0.3, 10), number(0, 0.5))
  .map(([apertureMm, exitPupilMm, obstruction]) => viewAt(apertureMm, apertureMm / exitPupilMm, obstruction))

const anyMoon = fc.record({
  altitudeDeg: number(-20, 90),
  phaseAngleDeg: number(0, 180),
  distanceKm: number(356_000, 407_000),
  separationDeg: number(0, 180),
})

/** Any place of the sky by day or night; the zenith and the horizon come up often. */
export const anyGeometry: fc.Arbitrary<SkyGeometry> = fc.record({
  altitudeDeg: fc.oneof(number(-5, 90), fc.constantFrom(-1, 0, 0.01, 90)),
  azimuthDeg: number(0, 360),
  sunAltitudeDeg: fc.oneof(number(-60, 90), fc.constantFrom(-24, -12, -5, -3, 0, 3, 5, 90)),
  sunSeparationDeg: number(0, 180),
  moon: fc.option(anyMoon, { nil: null }),
})

export const anyConditions: fc.Arbitrary<Conditions> = fc.record({
  zenithMag: number(15, 22),
  extinctionMag: number(0, 1),
  seeingArcsec: number(0.5, 8),
  thinCloud: number(0, 1),
  noviceFactor: number(1, 8),
  eyes: fc.constantFrom<1 | 2>(1, 2),
  pupilMm: number(4, 8),
  moonGazerShare: number(0, 1),
  streetLight: fc.boolean(),
  glow: fc.constantFrom([], [{ fromDeg: 300, toDeg: 40, brighterMag: 1.5 }]),
})

/** Conditions with some of them changed. */
export const conditionsWith = (changes: Partial<Conditions>): Conditions => ({ ...DEFAULT_CONDITIONS, ...changes })

/** What a desk answers of a thing that most people see. */
export const A_SIGHTING: SightAnswer = {
  chance: 0.8,
  chanceLow: 0.7,
  chanceHigh: 0.9,
  marginMag: 1,
  limitMag: 9,
  view: 0.6,
  word: 'most',
  reasons: [{ code: 'sight.moonlight', magnitudes: -0.4 }],
  caution: null,
  sky: { siteCd: 0.001, moonCd: 0.002, twilightCd: 0, totalCd: 0.003, magPerArcsec2: 19.1 },
}
