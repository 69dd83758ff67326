import { type Svg, svgElement, svgText } from '../../server/drawings/svg.ts'
import { WALK_PAPER } from '../../server/drawings/walk-scale.ts'
import { nightHours } from '../../server/tours/hours.ts'
import type { Stop } from '../../server/tours/tour.ts'
import type { PrintSubject } from '../../server/web/pages/papers.ts'
import type { PrintPictures, SizedPicture } from '../../server/web/pages/print-pictures.ts'
import { A_LIGHT_SET_UP } from './alignment-data.ts'
import { A_NIGHT, AN_OBJECT } from './field-data.ts'
import { A_CHECK, A_LINE, A_STORY, AN_EVENING, NAMES, TOUR } from './page-data.ts'
import { A_FULL_PRINT, AN_EMPTY_PRINT } from './paper-pages.ts'

/** Sixty letters. */
const LONG_NAME = 'The very long name of a thing that nobody ever shortens here'
const HALF_HOUR_MS = 1_800_000
const station = firstOf(A_NIGHT.stations)
const stop = firstOf(TOUR.stops)

function firstOf<Item>([first]: readonly Item[]): Item {
  if (first === undefined) throw new Error('The night of the tests has a station and a stop')
  return first
}

/** A frame of its real size with a word in the letters of drawings. */
function drawn(widthMm: number, heightMm: number, notes: readonly string[], lettersMm = 4.4): SizedPicture {
  const ink = { fill: 'currentColor', 'font-size': lettersMm }
  const svg: Svg = svgElement(
    'svg',
    { viewBox: `0 0 ${widthMm} ${heightMm}`, role: 'img' },
    svgElement('title', {}, svgText('A picture.')),
    svgElement('rect', {
      x: 1,
      y: 1,
      width: widthMm - 2,
      height: heightMm - 2,
      fill: 'none',
      stroke: 'currentColor',
      'stroke-width': 0.5,
    }),
    svgElement('text', { x: 4, y: 10, ...ink }, svgText('north')),
  )
  return { svg, notes, widthMm, heightMm, legend: null }
}

const PT_MM = 25.4 / 72
const NOTE = 'Dots are stars that newcomers see from here, the brighter the larger.'
const DRAWN: PrintPictures = {
  field: () => drawn(84, 47, [NOTE, 'Stars drift out of the view towards the west.']),
  finder: (_key, _at, heightMm) => drawn(84, heightMm ?? 96, [NOTE]),
  walk: () => drawn(180, 92, [NOTE], WALK_PAPER.sizePt * PT_MM),
  sky: () => drawn(180, 204, [NOTE, NOTE]),
  score: () => [drawn(254, 164, [])],
}

interface Row {
  readonly stations: number
  readonly stops: number
  readonly nameOf: (key: string) => string
}

/** A night with so many stations and stops, spread evenly over them and over the public hours. */
function rowOf({ stations, stops, nameOf }: Row): PrintSubject {
  const row = Array.from({ length: stations }, (_, i) => ({ ...station, id: `station-${i}`, name: `Station ${i + 1}` }))
  const night = { ...A_NIGHT, stations: row }
  const { opensAt, closesAt } = nightHours(night)
  const each = Math.ceil(stops / stations)
  const lengthMs = (closesAt.getTime() - opensAt.getTime()) / each
  const shown = Array.from({ length: stops }, (_, i): Stop => {
    const fromMs = opensAt.getTime() + Math.floor(i / stations) * lengthMs
    return {
      ...stop,
      targetKey: `thing-${i}`,
      stationId: `station-${i % stations}`,
      startsAt: new Date(fromMs),
      endsAt: new Date(fromMs + lengthMs),
    }
  })
  const lines = shown.map(({ targetKey, stationId }) => ({ ...A_LINE, targetKey, stationId }))
  const times = Array.from({ length: 7 }, (_, k) => new Date(opensAt.getTime() + k * HALF_HOUR_MS))
  return {
    ...A_FULL_PRINT,
    isStale: false,
    night,
    tour: { ...TOUR, stops: shown, spares: [] },
    names: {
      ...NAMES,
      nameOf,
      show: (key) => ({ ...AN_OBJECT, key, name: nameOf(key) }),
      story: (key) => ({ ...A_STORY, key }),
    },
    checks: times.map((at) => ({ ...A_CHECK, at, lines })),
    beside: [],
    pictures: DRAWN,
  }
}

const numbered = (key: string): string => `Thing ${key.replace('thing-', '')}`
const LIGHT_EVENING = {
  ...AN_EVENING,
  sunsetAt: null,
  civilDuskAt: null,
  nauticalDuskAt: null,
  moonriseAt: null,
  moonsetAt: null,
}

const withClass = (subject: PrintSubject, groups: number): PrintSubject => {
  const schoolClass = { startsAt: '18:30', endsAt: '19:30', groups }
  return { ...subject, night: { ...subject.night, settings: { ...subject.night.settings, schoolClass } } }
}

/** Nights at the ends of what there is. */
export const HARD_NIGHTS: Readonly<Record<string, PrintSubject>> = {
  'no stops': { ...AN_EMPTY_PRINT, pictures: { ...AN_EMPTY_PRINT.pictures, sky: DRAWN.sky } },
  'one telescope': rowOf({ stations: 1, stops: 1, nameOf: numbered }),
  'forty stops': rowOf({ stations: 12, stops: 40, nameOf: numbered }),
  'long names': rowOf({ stations: 4, stops: 12, nameOf: (key) => `${LONG_NAME} ${key}`.slice(-60) }),
  'a class of six groups': withClass(rowOf({ stations: 4, stops: 8, nameOf: numbered }), 6),
  'a summer night without dusk': {
    ...rowOf({ stations: 2, stops: 2, nameOf: numbered }),
    evening: LIGHT_EVENING,
    setUp: A_LIGHT_SET_UP,
  },
}
