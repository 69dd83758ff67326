import { describe, expect, it } from 'vitest'
import { byTimeAndRow, firstShowings } from '../../server/tours/first-showing.ts'
import { A_MIXED_NIGHT } from '../support/beside-data.ts'
import { A_TOUR } from '../support/field-data.ts'

const [stop] = A_TOUR.stops
if (!stop) throw new Error('The programme of the tests has a stop')
const at = (minutes: number): Date => new Date(stop.startsAt.getTime() + minutes * 60_000)

describe('the first showings of an evening', () => {
  it('have every target once, by time, at the same moment in the order of the row', () => {
    const stops = [
      { ...stop, targetKey: 'late', startsAt: at(30) },
      { ...stop, targetKey: 'far', stationId: 'table' },
      { ...stop, targetKey: 'near', stationId: 'guide' },
      { ...stop, targetKey: 'near', startsAt: at(60) },
    ]
    const found = firstShowings(A_MIXED_NIGHT, { stops })
    expect(found.map(({ targetKey }) => targetKey)).toEqual(['near', 'far', 'late'])
    expect(found[0]?.stationId).toBe('guide')
  })

  it('put a station that left the row last, and are none without stops', () => {
    const stops = [
      { ...stop, targetKey: 'gone', stationId: 'left' },
      { ...stop, targetKey: 'here' },
    ]
    expect(firstShowings(A_MIXED_NIGHT, { stops }).map(({ targetKey }) => targetKey)).toEqual(['here', 'gone'])
    expect(firstShowings(A_MIXED_NIGHT, { stops: [] })).toEqual([])
  })
})

describe('the order of the stops of an evening', () => {
  it('goes by time, then by the row, and those that left it come last', () => {
    const stops = [
      { ...stop, targetKey: 'gone', stationId: 'left' },
      { ...stop, targetKey: 'later', startsAt: at(30) },
      { ...stop, targetKey: 'far', stationId: 'table' },
      { ...stop, targetKey: 'near', stationId: 'guide' },
    ]
    const keys = stops.toSorted(byTimeAndRow(A_MIXED_NIGHT)).map(({ targetKey }) => targetKey)
    expect(keys).toEqual(['near', 'far', 'gone', 'later'])
  })
})
