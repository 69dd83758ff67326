import { DEFAULT_SETTINGS } from '../../../server/tours/night.ts'
import { type JudgedNight, row, skyline, visitors } from '../judged-night.ts'
import { drivenCatadioptric, handReflector } from '../kit.ts'

export const night08: JudgedNight = {
  title: 'A class for an hour in spring: thin Moon and Jupiter',
  site: {
    name: 'Schoolyard De Wilg',
    latitudeDeg: 52.4,
    longitudeDeg: 4.9,
    heightM: 0,
    zone: 'Europe/Amsterdam',
    skyMag: 18.3,
    horizon: skyline(
      [0, 12, 'school'],
      [60, 14, 'school'],
      [100, 9, 'poplars'],
      [180, 8, 'canal'],
      [250, 8, 'canal'],
      [300, 14, 'flats'],
    ),
    glow: [],
  },
  telescopes: [handReflector(150), drivenCatadioptric(127)],
  night: {
    date: '2027-03-12',
    opens: '19:15',
    closes: '20:15',
    visitors: visitors('19:15', 2, 4, 28),
    stations: row(['Small reflector', 'children'], ['Driven tube']),
    settings: { ...DEFAULT_SETTINGS, schoolClass: { startsAt: '19:15', endsAt: '20:15', groups: 2 } },
  },
  written: [
    {
      station: 'Small reflector',
      spans: [
        [
          '19:15',
          '20:15',
          ['moon', 'jupiter'],
          'Everybody sees the two best things and nothing moves in between: one here, the other there.',
        ],
      ],
    },
    { station: 'Driven tube', spans: [['19:15', '20:15', ['jupiter', 'moon'], 'The other of the two.']] },
  ],
}
