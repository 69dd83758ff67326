import { DEFAULT_SETTINGS } from '../../../server/tours/night.ts'
import { type JudgedNight, row, skyline, visitors } from '../judged-night.ts'
import { drivenCatadioptric, lowRefractor } from '../kit.ts'

export const night10: JudgedNight = {
  title: 'A date that could not be moved: full Moon over a town',
  site: {
    name: 'Piazza dei Gelsi',
    latitudeDeg: 45.1,
    longitudeDeg: 7.6,
    heightM: 240,
    zone: 'Europe/Rome',
    skyMag: 18.0,
    horizon: skyline(
      [0, 10, 'houses'],
      [90, 8, 'avenue'],
      [180, 7, 'avenue'],
      [240, 9, 'houses'],
      [300, 14, 'theatre'],
    ),
    glow: [],
  },
  telescopes: [lowRefractor(80), drivenCatadioptric(200)],
  night: {
    date: '2027-01-21',
    opens: '18:30',
    closes: '20:30',
    visitors: visitors('18:30', 4, 24, 14),
    stations: row(['Low refractor', 'children'], ['Driven tube']),
    settings: DEFAULT_SETTINGS,
  },
  written: [
    {
      station: 'Low refractor',
      spans: [
        ['18:30', '20:30', ['moon'], 'With a full Moon the Moon stays on, flat as it is, where children reach it.'],
      ],
    },
    {
      station: 'Driven tube',
      spans: [
        ['18:30', '20:00', ['saturn'], 'Saturn does not mind the Moon.'],
        [
          '20:00',
          '20:30',
          ['saturn', 'm42', 'hip9640', 'hip36850'],
          'Saturn to the end, or something bright that has risen.',
        ],
      ],
    },
  ],
}
