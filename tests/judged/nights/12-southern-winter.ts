import { DEFAULT_SETTINGS } from '../../../server/tours/night.ts'
import { type JudgedNight, row, skyline, visitors } from '../judged-night.ts'
import { drivenCatadioptric, drivenReflector, handReflector, lowRefractor, wideRefractor } from '../kit.ts'

export const night12: JudgedNight = {
  title: 'Southern winter evening in a large town: a high half Moon and no planet',
  site: {
    name: 'Yarrabank reserve',
    latitudeDeg: -37.8,
    longitudeDeg: 145.0,
    heightM: 30,
    zone: 'Australia/Melbourne',
    skyMag: 18.4,
    horizon: skyline(
      [0, 8, 'houses'],
      [90, 8, 'plane trees'],
      [160, 7, 'houses'],
      [240, 9, 'plane trees'],
      [300, 9, 'houses'],
    ),
    glow: [],
  },
  telescopes: [lowRefractor(80), wideRefractor(102), drivenReflector(150), drivenCatadioptric(200), handReflector(300)],
  night: {
    date: '2027-08-09',
    opens: '18:45',
    closes: '21:15',
    visitors: visitors('18:45', 5, 40, 36),
    stations: row(
      ['Low refractor', 'children'],
      ['Wide refractor'],
      ['Driven reflector'],
      ['Driven tube'],
      ['Big reflector'],
    ),
    settings: DEFAULT_SETTINGS,
  },
  written: [
    {
      station: 'Low refractor',
      spans: [['18:45', '21:15', ['moon'], 'The Moon all evening where children and chairs reach it.']],
    },
    {
      station: 'Driven tube',
      spans: [
        [
          '18:45',
          '21:15',
          ['hip71683', 'moon', 'ngc4755', 'hip60718'],
          'The nearest stars, a pair that power splits well, or a close look at the Moon.',
        ],
      ],
    },
    {
      station: 'Big reflector',
      spans: [
        ['18:45', '20:15', ['ngc5139', 'ngc6397', 'm4'], 'The great globular sinks: first it, with the most light.'],
        ['20:30', '21:15', ['ngc5139', 'ngc104', 'ngc6752', 'm22', 'ngc6397'], 'Another of the great globulars.'],
      ],
    },
  ],
}
