import { DEFAULT_SETTINGS } from '../../../server/tours/night.ts'
import { type JudgedNight, row, skyline, visitors } from '../judged-night.ts'
import { drivenReflector, handReflector, wideRefractor } from '../kit.ts'

export const night02: JudgedNight = {
  title: 'November under a dark sky without a Moon',
  site: {
    name: 'Col des Sorbiers',
    latitudeDeg: 44.2,
    longitudeDeg: 5.4,
    heightM: 1150,
    zone: 'Europe/Paris',
    skyMag: 21.3,
    horizon: skyline(
      [0, 4, 'ridge'],
      [90, 5, 'pines'],
      [140, 4, 'meadow'],
      [230, 5, 'meadow'],
      [270, 8, 'pines'],
      [330, 5, 'ridge'],
    ),
    glow: [],
  },
  telescopes: [wideRefractor(80), drivenReflector(200, 'equatorial'), handReflector(300)],
  night: {
    date: '2026-11-07',
    opens: '19:00',
    closes: '22:00',
    visitors: visitors('19:00', 6, 14, 8),
    stations: row(['Wide refractor', 'children'], ['Driven reflector'], ['Big reflector']),
    settings: DEFAULT_SETTINGS,
  },
  written: [
    {
      station: 'Wide refractor',
      spans: [
        [
          '19:00',
          '22:00',
          ['m31', 'ngc869', 'm45'],
          'Wide and bright things fill its field: the great galaxy while it is not overhead, the double cluster, the Seven Sisters once they are up.',
        ],
      ],
    },
    {
      station: 'Driven reflector',
      spans: [
        [
          '19:00',
          '22:00',
          ['saturn'],
          'Saturn stands well all evening, everybody asks for it, and this mount follows it by itself.',
        ],
      ],
    },
    {
      station: 'Big reflector',
      spans: [
        [
          '19:00',
          '20:15',
          ['m57', 'm27', 'm13', 'm15'],
          'Ring and dumbbell sink in the west: first them, with the most light.',
        ],
        ['20:15', '21:15', ['m15', 'm27', 'm57', 'm31', 'ngc869'], 'A bright globular, still high.'],
        ['21:30', '22:00', ['m31', 'm42', 'm15', 'ngc869', 'ngc7662', 'm37'], 'A showpiece to close with.'],
      ],
    },
  ],
}
