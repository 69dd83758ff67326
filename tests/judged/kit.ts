import type { TelescopeDraft } from '../../server/tours/telescope.ts'

type Tube = TelescopeDraft['tubes'][number]
type Eyepiece = TelescopeDraft['eyepieces'][number]

const eyepiece = (focalLengthMm: number, apparentFieldDeg: number): Eyepiece => ({
  name: `${focalLengthMm} mm`,
  focalLengthMm,
  apparentFieldDeg,
  fieldStopMm: null,
})

const tube = (apertureMm: number, focalLengthMm: number, design: Tube['design']): Tube => ({
  name: `${apertureMm} mm`,
  design,
  apertureMm,
  focalLengthMm,
  obstruction: design === 'refractor' ? 0 : design === 'reflector' ? 0.28 : 0.35,
  transmission: design === 'refractor' ? 0.93 : 0.82,
  hasDiagonal: design !== 'reflector',
})

const MOUNTED = { floorDeg: 10, ceilingDeg: 80 }

/** A small refractor on a low driven mount beside which a chair can stand: for children. */
export const lowRefractor = (apertureMm: number): TelescopeDraft => ({
  ...MOUNTED,
  name: `${apertureMm} mm refractor`,
  mount: 'altaz-driven',
  tubes: [tube(apertureMm, apertureMm * 6.5, 'refractor')],
  eyepieces: [eyepiece(24, 65), eyepiece(apertureMm < 90 ? 6 : 7, 60)],
  axisLowCm: 75,
  axisHighCm: 110,
  chairReach: 'side',
})

/** A short refractor for wide fields. */
export const wideRefractor = (apertureMm: number): TelescopeDraft => ({
  ...lowRefractor(apertureMm),
  name: `${apertureMm} mm wide refractor`,
  tubes: [tube(apertureMm, apertureMm * 6, 'refractor')],
  eyepieces: [eyepiece(32, 50), eyepiece(15, 60), eyepiece(6, 60)],
  axisLowCm: 100,
  axisHighCm: 140,
  chairReach: 'folded',
})

/** A driven tube of long focus, at home on Moon and planets. */
export const drivenCatadioptric = (apertureMm: number): TelescopeDraft => ({
  ...MOUNTED,
  name: `${apertureMm} mm catadioptric`,
  mount: 'altaz-driven',
  tubes: [tube(apertureMm, apertureMm * (apertureMm < 150 ? 12 : 10), 'catadioptric')],
  eyepieces: [eyepiece(32, 52), eyepiece(20, 60), eyepiece(12, 60)],
  axisLowCm: 100,
  axisHighCm: 140,
  chairReach: 'folded',
})

/** A driven reflector; `mount` says about which axes. */
export const drivenReflector = (
  apertureMm: number,
  mount: TelescopeDraft['mount'] = 'altaz-driven',
): TelescopeDraft => ({
  ...MOUNTED,
  name: `${apertureMm} mm reflector`,
  mount,
  ceilingDeg: mount === 'equatorial' ? 85 : 80,
  tubes: [tube(apertureMm, apertureMm * 5, 'reflector')],
  eyepieces: [eyepiece(25, 60), eyepiece(10, 60), eyepiece(6, 60)],
  axisLowCm: 100,
  axisHighCm: 140,
  chairReach: 'folded',
})

/** A reflector in a box on the ground, pushed by hand. */
export const handReflector = (apertureMm: number): TelescopeDraft => ({
  ...MOUNTED,
  name: `${apertureMm} mm reflector by hand`,
  mount: 'altaz-hand',
  tubes: [tube(apertureMm, apertureMm < 180 ? 1200 : apertureMm * 5, 'reflector')],
  eyepieces: [eyepiece(30, 68), eyepiece(15, 65), eyepiece(9, 72)],
  axisLowCm: apertureMm < 180 ? 50 : 60,
  axisHighCm: apertureMm < 180 ? 50 : 60,
  chairReach: 'no',
})
