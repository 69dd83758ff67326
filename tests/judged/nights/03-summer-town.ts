import { DEFAULT_SETTINGS } from '../../../server/tours/night.ts'
import { type JudgedNight, row, skyline, visitors } from '../judged-night.ts'
import { drivenCatadioptric, handReflector } from '../kit.ts'

export const night03: JudgedNight = {
  title: 'Summer night in a large town, a half Moon going down',
  site: {
    name: 'Plaza del Molino',
    latitudeDeg: 40.4,
    longitudeDeg: -3.6,
    heightM: 650,
    zone: 'Europe/Madrid',
    skyMag: 18.2,
    horizon: skyline(
      [0, 8, 'flats'],
      [90, 8, 'flats'],
      [150, 7, 'park'],
      [210, 6, 'park'],
      [240, 7, 'park'],
      [280, 10, 'church'],
      [320, 9, 'flats'],
    ),
    glow: [],
  },
  telescopes: [drivenCatadioptric(127), handReflector(200)],
  night: {
    date: '2027-07-10',
    opens: '22:30',
    closes: '00:30',
    visitors: visitors('22:30', 4, 30, 12),
    stations: row(['Driven tube', 'children'], ['Reflector']),
    settings: DEFAULT_SETTINGS,
  },
  written: [
    {
      station: 'Driven tube',
      spans: [
        [
          '22:30',
          '23:45',
          ['moon'],
          'The Moon is what people came for, and it goes down behind the park: until it does it stays.',
        ],
      ],
    },
    {
      station: 'Reflector',
      spans: [
        [
          '22:30',
          '23:00',
          ['hip95947', 'hip65378', 'm5', 'm57', 'm13', 'hip91919'],
          'Still twilight: a bright double or globular.',
        ],
        [
          '23:15',
          '00:30',
          ['m57', 'hip95947', 'm11', 'm5', 'm22'],
          'The ring is high and bears town light; the great globular is too near the zenith for this mount.',
        ],
      ],
    },
  ],
}
