import { DEFAULT_SETTINGS } from '../../../server/tours/night.ts'
import { type JudgedNight, row, skyline, visitors } from '../judged-night.ts'
import { drivenReflector, handReflector, wideRefractor } from '../kit.ts'

export const night11: JudgedNight = {
  title: 'A cold January night without a Moon',
  site: {
    name: 'Hut above Lipova',
    latitudeDeg: 50.3,
    longitudeDeg: 16.0,
    heightM: 780,
    zone: 'Europe/Prague',
    skyMag: 21.0,
    horizon: skyline(
      [0, 5, 'forest'],
      [60, 6, 'forest'],
      [110, 5, 'slope'],
      [200, 4, 'slope'],
      [250, 7, 'forest'],
      [310, 7, 'forest'],
    ),
    glow: [],
  },
  telescopes: [wideRefractor(72), drivenReflector(150), handReflector(250)],
  night: {
    date: '2027-01-08',
    opens: '18:30',
    closes: '21:30',
    visitors: visitors('18:30', 6, 12, 6),
    stations: row(['Wide refractor', 'children'], ['Driven reflector'], ['Big reflector']),
    settings: DEFAULT_SETTINGS,
  },
  written: [
    {
      station: 'Wide refractor',
      spans: [
        ['18:30', '21:30', ['m45', 'ngc869', 'm31', 'm44'], 'The Seven Sisters above all: only this tube frames them.'],
      ],
    },
    {
      station: 'Driven reflector',
      spans: [['18:30', '20:45', ['saturn'], 'Saturn sinks slowly: as long as it stands above the forest.']],
    },
    {
      station: 'Big reflector',
      spans: [
        [
          '18:30',
          '19:45',
          ['m31', 'ngc869', 'm37', 'm35', 'm81', 'm82', 'ngc7662', 'm15'],
          'A bright cluster or galaxy until Orion has climbed.',
        ],
        ['20:15', '21:30', ['m42'], "Orion's cloud, high enough now, with the most light."],
      ],
    },
  ],
}
