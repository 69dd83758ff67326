import { describe, expect, it } from 'vitest'
import { cardKeys } from '../../server/web/pages/cards.ts'
import { runSheet } from '../../server/web/pages/run-sheet.ts'
import { signs } from '../../server/web/pages/sign.ts'
import { HOST } from '../support/page-data.ts'
import { A_FULL_PRINT } from '../support/paper-pages.ts'

const [stop] = A_FULL_PRINT.tour.stops
const [first] = A_FULL_PRINT.night.stations
if (!stop || !first) throw new Error('The night of the tests has a stop and a station')

/** Three stops at one moment: at a station that left the row, at its second station and at its first. */
const subject = {
  ...A_FULL_PRINT,
  night: {
    ...A_FULL_PRINT.night,
    stations: [
      { ...first, id: 'one', name: 'One' },
      { ...first, id: 'two', name: 'Two' },
    ],
  },
  tour: {
    ...A_FULL_PRINT.tour,
    stops: ['left', 'two', 'one'].map((stationId) => ({ ...stop, stationId, targetKey: `thing-${stationId}` })),
    spares: [],
  },
}

describe('papers of an evening on which three things begin at once', () => {
  it('have them in the order of the row, what left it last', () => {
    const things = ['thing-one', 'thing-two', 'thing-left']
    const lines = runSheet(HOST, subject).moves.flatMap((move) => move.lines)
    expect(lines.map(({ name }) => name)).toEqual(things)
    expect(cardKeys(subject.night, subject.tour)).toEqual(things)
    expect(signs(HOST, subject).signs.map(({ name }) => name.lines.join(' '))).toEqual(things)
  })
})
