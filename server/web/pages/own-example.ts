import type { Words } from '../../words/words.ts'
import type { OwnColumn } from './own-columns.ts'
import { pointText } from './say.ts'

const WEST = 12
const EAST_NORTH_EAST = 3

/** The things of the example by the names of their words, with what needs none. Every one of them is invented. */
const THINGS = {
  cluster: { kind: 'open-cluster', ra: '21h 32m 12s', dec: "+48° 26'", magnitude: 5.6, width_arcmin: 25, appeal: 0.5 },
  galaxy: {
    ...{ kind: 'galaxy', ra: 184.74, dec: '47.30' },
    ...{ magnitude: 9.1, width_arcmin: 8, height_arcmin: 3, appeal: 0.3 },
  },
  double: {
    ...{ kind: 'double', ra: '19h 30.7m', dec: "+27° 58'" },
    ...{ magnitude: 3.2, second_magnitude: 5.1, separation_arcsec: 34, appeal: 0.7 },
  },
  comet: { kind: 'comet', ra: 30.5, dec: -12.25, magnitude: 6.5, width_arcmin: 8, condensation: 4, appeal: 0.8 },
  star: { kind: 'star', ra: 310.2, dec: 45.1, magnitude: '5.0', appeal: 0.5 },
  pass: {
    ...{ kind: 'bare-eye', magnitude: -3.1, appeal: 0.7 },
    ...{ from: '2026-12-17T18:42:10+01:00', to: '2026-12-17T18:48:30+01:00' },
  },
} as const satisfies Readonly<Record<string, Row>>
type Row = Readonly<Partial<Record<OwnColumn, string | number>>>

const SHOWN = [
  ...(['name', 'kind', 'ra', 'dec', 'magnitude', 'width_arcmin', 'height_arcmin', 'second_magnitude'] as const),
  ...(['separation_arcsec', 'condensation', 'from', 'to', 'from_direction', 'to_direction', 'appeal', 'why'] as const),
] satisfies readonly OwnColumn[]

/** A list that is as it should be, with names and directions in the reader's language. */
export function ownExample(words: Words): string {
  const rows = Object.entries(THINGS).map(([thing, given]): Row => {
    const directions = 'from' in given && {
      from_direction: pointText(words, WEST),
      to_direction: pointText(words, EAST_NORTH_EAST),
    }
    const said = { name: words.say(`own.example-${thing}`), why: words.say(`own.example-${thing}-why`) }
    return { ...given, ...directions, ...said }
  })
  return [SHOWN, ...rows.map((row) => SHOWN.map((column) => row[column] ?? ''))]
    .map((cells) => `${cells.join(',')}\n`)
    .join('')
}
