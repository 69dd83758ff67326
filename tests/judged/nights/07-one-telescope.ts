import { DEFAULT_SETTINGS } from '../../../server/tours/night.ts'
import { type JudgedNight, row, skyline, visitors } from '../judged-night.ts'
import { handReflector } from '../kit.ts'

export const night07: JudgedNight = {
  title: 'One telescope on a market square in spring',
  site: {
    name: 'Marktplatz Weidenbach',
    latitudeDeg: 48.1,
    longitudeDeg: 11.6,
    heightM: 520,
    zone: 'Europe/Berlin',
    skyMag: 18.4,
    horizon: skyline(
      [0, 15, 'roofs'],
      [90, 15, 'town hall'],
      [150, 10, 'street'],
      [210, 12, 'street'],
      [250, 16, 'roofs'],
      [320, 18, 'church'],
    ),
    glow: [],
  },
  telescopes: [handReflector(150)],
  night: {
    date: '2027-04-02',
    opens: '20:45',
    closes: '22:15',
    visitors: visitors('20:45', 3, 16, 6),
    stations: row(['The telescope', 'children']),
    settings: DEFAULT_SETTINGS,
  },
  written: [
    {
      station: 'The telescope',
      spans: [
        [
          '20:45',
          '21:15',
          ['m42', 'jupiter'],
          'Either Orion before it sinks behind the roofs, or at once what everybody came for.',
        ],
        [
          '21:15',
          '22:15',
          ['jupiter'],
          'With one telescope the surest delight stays on: Jupiter, high, with its moons.',
        ],
      ],
    },
  ],
}
