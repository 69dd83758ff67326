import { DEFAULT_SETTINGS } from '../../../server/tours/night.ts'
import { type JudgedNight, row, skyline, visitors } from '../judged-night.ts'
import { drivenCatadioptric, handReflector, lowRefractor } from '../kit.ts'

export const night01: JudgedNight = {
  title: 'Autumn evening at a town school: a low half Moon, Saturn rising',
  site: {
    name: 'Ashcombe school field',
    latitudeDeg: 51.6,
    longitudeDeg: -1.2,
    heightM: 70,
    zone: 'Europe/London',
    skyMag: 18.8,
    horizon: skyline(
      [0, 6, 'houses'],
      [70, 7, 'hedge'],
      [120, 6, 'hedge'],
      [200, 6, 'hedge'],
      [250, 9, 'hall'],
      [300, 8, 'limes'],
      [330, 6, 'houses'],
    ),
    glow: [],
  },
  telescopes: [lowRefractor(102), drivenCatadioptric(200), handReflector(250)],
  night: {
    date: '2027-10-07',
    opens: '19:30',
    closes: '21:30',
    visitors: visitors('19:30', 4, 20, 22),
    stations: row(['Low refractor', 'children'], ['Driven tube'], ['Big reflector']),
    settings: DEFAULT_SETTINGS,
  },
  written: [
    {
      station: 'Low refractor',
      spans: [
        [
          '19:30',
          '20:45',
          ['moon'],
          'The Moon stands low all evening: it goes first, to the station that children and chairs reach.',
        ],
      ],
    },
    {
      station: 'Driven tube',
      spans: [
        [
          '19:30',
          '20:30',
          ['hip95947', 'ngc869', 'hip91919', 'm13', 'm15'],
          'Until Saturn clears the hedge a colourful double or a bright cluster that the driven tube keeps in view.',
        ],
        [
          '20:45',
          '21:30',
          ['saturn'],
          'Saturn is above 15 degrees now; the driven tube of long focus is the one for it, and it closes the evening.',
        ],
      ],
    },
    {
      station: 'Big reflector',
      spans: [
        [
          '19:30',
          '21:15',
          ['m13', 'm57', 'm27', 'm15'],
          'The best globular and the ring want the most light, and they sink in the west; town light spares them.',
        ],
      ],
    },
  ],
}
