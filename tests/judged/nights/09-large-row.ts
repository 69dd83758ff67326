import { DEFAULT_SETTINGS } from '../../../server/tours/night.ts'
import { type JudgedNight, row, skyline, visitors } from '../judged-night.ts'
import { drivenCatadioptric, drivenReflector, handReflector, lowRefractor, wideRefractor } from '../kit.ts'

export const night09: JudgedNight = {
  title: 'A row of six at a desert town: half Moon, Saturn leaving, Jupiter and Mars coming',
  site: {
    name: 'Ocotillo ball park',
    latitudeDeg: 33.5,
    longitudeDeg: -112.0,
    heightM: 350,
    zone: 'America/Phoenix',
    skyMag: 18.7,
    horizon: skyline(
      [0, 5, 'houses'],
      [80, 6, 'houses'],
      [150, 5, 'stand'],
      [230, 6, 'stand'],
      [270, 8, 'palms'],
      [320, 5, 'houses'],
    ),
    glow: [],
  },
  telescopes: [
    wideRefractor(80),
    lowRefractor(102),
    drivenCatadioptric(127),
    drivenReflector(150),
    drivenCatadioptric(200),
    handReflector(250),
  ],
  night: {
    date: '2027-02-13',
    opens: '19:00',
    closes: '22:00',
    visitors: visitors('19:00', 6, 70, 50),
    stations: row(
      ['Wide refractor'],
      ['Low refractor', 'children'],
      ['Small driven tube'],
      ['Driven reflector'],
      ['Large driven tube'],
      ['Big reflector'],
    ),
    settings: DEFAULT_SETTINGS,
  },
  written: [
    {
      station: 'Wide refractor',
      spans: [
        [
          '19:30',
          '22:00',
          ['m45', 'ngc869', 'm44', 'm35'],
          'The Seven Sisters and the wide clusters, which no other tube here can frame.',
        ],
      ],
    },
    {
      station: 'Low refractor',
      spans: [['19:00', '22:00', ['moon'], 'The Moon all evening at the eyepiece that children and chairs reach.']],
    },
    {
      station: 'Small driven tube',
      spans: [
        [
          '20:15',
          '22:00',
          ['jupiter', 'mars', 'hip36850', 'hip9640', 'moon', 'saturn'],
          'A planet of its own, or a bright double.',
        ],
      ],
    },
    {
      station: 'Large driven tube',
      spans: [
        ['19:00', '19:45', ['saturn', 'jupiter'], 'Saturn goes down: first it, in the best tube for planets.'],
        ['20:15', '22:00', ['jupiter'], 'Then Jupiter, which is high by now.'],
      ],
    },
    {
      station: 'Big reflector',
      spans: [
        [
          '19:00',
          '22:00',
          ['m42'],
          "Orion's cloud stands high all evening: the most light for the best of the clouds.",
        ],
      ],
    },
  ],
}
