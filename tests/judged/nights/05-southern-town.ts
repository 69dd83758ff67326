import { DEFAULT_SETTINGS } from '../../../server/tours/night.ts'
import { type JudgedNight, row, skyline, visitors } from '../judged-night.ts'
import { drivenReflector, handReflector, lowRefractor } from '../kit.ts'

export const night05: JudgedNight = {
  title: 'Autumn evening in a southern town: Moon, Mars and Jupiter in the north',
  site: {
    name: 'Wattle Park oval',
    latitudeDeg: -33.9,
    longitudeDeg: 151.0,
    heightM: 60,
    zone: 'Australia/Sydney',
    skyMag: 18.6,
    horizon: skyline(
      [0, 7, 'houses'],
      [60, 8, 'gum trees'],
      [120, 10, 'gum trees'],
      [180, 8, 'clubhouse'],
      [250, 9, 'houses'],
      [310, 8, 'houses'],
    ),
    glow: [],
  },
  telescopes: [lowRefractor(90), drivenReflector(150), handReflector(250)],
  night: {
    date: '2027-05-14',
    opens: '18:00',
    closes: '20:30',
    visitors: visitors('18:00', 5, 26, 24),
    stations: row(['Low refractor', 'children'], ['Driven reflector'], ['Big reflector']),
    settings: DEFAULT_SETTINGS,
  },
  written: [
    {
      station: 'Low refractor',
      spans: [['18:00', '20:30', ['moon'], 'The Moon all evening at the eyepiece that children and chairs reach.']],
    },
    {
      station: 'Driven reflector',
      spans: [['18:00', '20:15', ['jupiter'], 'Jupiter with its moons all evening at the driven mount.']],
    },
    {
      station: 'Big reflector',
      spans: [
        ['18:00', '18:45', ['m42', 'ngc4755', 'hip71683', 'ngc3372'], 'Orion is sinking, the south is rising: either.'],
        [
          '18:45',
          '20:30',
          ['ngc5139', 'ngc4755', 'hip71683', 'ngc3372'],
          'The great globular and the jewels of the south are high; the Moon spares them.',
        ],
      ],
    },
  ],
}
