import type { TelescopeDraft } from '../server/tours/telescope.ts'

/** The four telescopes of the northern demo night, in the order of the row. */
export const northTelescopes: readonly TelescopeDraft[] = [
  {
    name: '102 mm refractor',
    mount: 'altaz-driven',
    tubes: [
      {
        name: '102 mm',
        design: 'refractor',
        apertureMm: 102,
        focalLengthMm: 660,
        obstruction: 0,
        transmission: 0.93,
        hasDiagonal: true,
      },
    ],
    eyepieces: [
      { name: '24 mm', focalLengthMm: 24, apparentFieldDeg: 65, fieldStopMm: 27.2 },
      { name: '7 mm', focalLengthMm: 7, apparentFieldDeg: 60, fieldStopMm: null },
    ],
    axisLowCm: 75,
    axisHighCm: 110,
    chairReach: 'side',
    floorDeg: 10,
    ceilingDeg: 80,
  },
  {
    name: '150 mm reflector',
    mount: 'altaz-driven',
    tubes: [
      {
        name: '150 mm',
        design: 'reflector',
        apertureMm: 150,
        focalLengthMm: 750,
        obstruction: 0.31,
        transmission: 0.82,
        hasDiagonal: false,
      },
    ],
    eyepieces: [
      { name: '25 mm', focalLengthMm: 25, apparentFieldDeg: 60, fieldStopMm: null },
      { name: '6 mm', focalLengthMm: 6, apparentFieldDeg: 60, fieldStopMm: null },
    ],
    axisLowCm: 100,
    axisHighCm: 140,
    chairReach: 'folded',
    floorDeg: 10,
    ceilingDeg: 80,
  },
  {
    name: '250 mm reflector',
    mount: 'altaz-hand',
    tubes: [
      {
        name: '250 mm',
        design: 'reflector',
        apertureMm: 250,
        focalLengthMm: 1250,
        obstruction: 0.25,
        transmission: 0.82,
        hasDiagonal: false,
      },
    ],
    eyepieces: [
      { name: '30 mm', focalLengthMm: 30, apparentFieldDeg: 70, fieldStopMm: 36.4 },
      { name: '9 mm', focalLengthMm: 9, apparentFieldDeg: 72, fieldStopMm: null },
    ],
    axisLowCm: 60,
    axisHighCm: 60,
    chairReach: 'no',
    floorDeg: 10,
    ceilingDeg: 80,
  },
  {
    name: '72 mm and 130 mm side by side',
    mount: 'altaz-driven',
    tubes: [
      {
        name: '72 mm',
        design: 'refractor',
        apertureMm: 72,
        focalLengthMm: 432,
        obstruction: 0,
        transmission: 0.93,
        hasDiagonal: true,
      },
      {
        name: '130 mm',
        design: 'reflector',
        apertureMm: 130,
        focalLengthMm: 650,
        obstruction: 0.32,
        transmission: 0.82,
        hasDiagonal: false,
      },
    ],
    eyepieces: [
      { name: '24 mm', focalLengthMm: 24, apparentFieldDeg: 65, fieldStopMm: 27.2 },
      { name: '6 mm', focalLengthMm: 6, apparentFieldDeg: 60, fieldStopMm: null },
    ],
    axisLowCm: 105,
    axisHighCm: 145,
    chairReach: 'no',
    floorDeg: 10,
    ceilingDeg: 80,
  },
]
