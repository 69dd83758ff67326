import { DEFAULT_SETTINGS } from '../../../server/tours/night.ts'
import { type JudgedNight, row, skyline, visitors } from '../judged-night.ts'
import { drivenCatadioptric, drivenReflector, handReflector, wideRefractor } from '../kit.ts'

export const night06: JudgedNight = {
  title: 'Southern autumn under a dark sky, two planets and no Moon',
  site: {
    name: 'Kurrajong station',
    latitudeDeg: -31.2,
    longitudeDeg: 149.1,
    heightM: 500,
    zone: 'Australia/Sydney',
    skyMag: 21.6,
    horizon: skyline([0, 4, 'hills'], [90, 4, 'plain'], [180, 4, 'plain'], [250, 6, 'shed'], [300, 5, 'hills']),
    glow: [],
  },
  telescopes: [wideRefractor(80), drivenCatadioptric(127), drivenReflector(200, 'equatorial'), handReflector(300)],
  night: {
    date: '2027-04-05',
    opens: '19:30',
    closes: '22:30',
    visitors: visitors('19:30', 6, 18, 8),
    stations: row(['Wide refractor', 'children'], ['Driven tube'], ['Driven reflector'], ['Big reflector']),
    settings: DEFAULT_SETTINGS,
  },
  written: [
    {
      station: 'Wide refractor',
      spans: [
        [
          '19:30',
          '22:30',
          ['ic2602', 'ngc3372', 'ngc3532', 'ngc2516', 'm44', 'm42', 'm41'],
          'The wide clusters and clouds of the southern Milky Way fill its field.',
        ],
      ],
    },
    {
      station: 'Driven tube',
      spans: [['19:30', '22:30', ['jupiter'], 'Jupiter all evening at the tube of long focus.']],
    },
    {
      station: 'Driven reflector',
      spans: [
        [
          '19:30',
          '22:30',
          ['m42', 'ngc4755', 'ngc5139', 'ngc3372', 'hip71683', 'hip60718', 'ngc2070', 'ngc3532', 'mars'],
          'The second of the great southern showpieces, or Mars.',
        ],
      ],
    },
    {
      station: 'Big reflector',
      spans: [
        ['19:30', '20:30', ['m42', 'ngc2070', 'ngc3372'], 'Orion sinks: first its cloud, with the most light.'],
        [
          '20:45',
          '22:30',
          ['ngc5139', 'ngc3372', 'ngc5128', 'ngc2070'],
          'Then the greatest of the globulars, rising all the time.',
        ],
      ],
    },
  ],
}
