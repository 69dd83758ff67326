import { DEFAULT_SETTINGS } from '../../../server/tours/night.ts'
import { type JudgedNight, row, skyline, visitors } from '../judged-night.ts'
import { drivenCatadioptric, lowRefractor } from '../kit.ts'

export const night04: JudgedNight = {
  title: 'A June night that never gets dark',
  site: {
    name: 'Fjellvik harbour',
    latitudeDeg: 59.9,
    longitudeDeg: 10.7,
    heightM: 20,
    zone: 'Europe/Oslo',
    skyMag: 19.5,
    horizon: skyline([0, 5, 'hills'], [90, 5, 'hills'], [180, 3, 'sea'], [260, 4, 'sea'], [300, 6, 'hills']),
    glow: [],
  },
  telescopes: [lowRefractor(102), drivenCatadioptric(200)],
  night: {
    date: '2027-06-12',
    opens: '23:00',
    closes: '00:30',
    visitors: visitors('23:00', 3, 12, 4),
    stations: row(['Low refractor', 'children'], ['Driven tube']),
    settings: DEFAULT_SETTINGS,
  },
  written: [
    {
      station: 'Low refractor',
      spans: [
        ['23:00', '23:45', ['moon'], 'Bright and sinking: the Moon first.'],
        [
          '00:00',
          '00:30',
          ['hip95947', 'hip65378', 'hip91919', 'hip91262', 'hip69673'],
          'Only stars and doubles bear this sky.',
        ],
      ],
    },
    {
      station: 'Driven tube',
      spans: [
        ['23:00', '23:45', ['jupiter'], 'Jupiter sinks into the haze: first it, while its belts still show.'],
        [
          '00:00',
          '00:30',
          ['hip95947', 'hip65378', 'hip91919', 'hip91262', 'hip69673'],
          'A double in two colours in a sky that is still blue.',
        ],
      ],
    },
  ],
}
