import { describe, expect, it } from 'vitest'
import { tally } from '../../server/web/pages/tally.ts'
import { HOST } from '../support/page-data.ts'
import { A_FULL_PRINT, AN_EMPTY_PRINT } from '../support/paper-pages.ts'

const { night } = A_FULL_PRINT
const [station] = night.stations
if (!station) throw new Error('The night of the tests has a station')
const rowOf = (count: number) => ({
  ...A_FULL_PRINT,
  night: {
    ...night,
    stations: Array.from({ length: count }, (_, k) => ({ ...station, id: `s-${k}`, name: `Station ${k}` })),
  },
})

describe('the tally sheet', () => {
  it('has every half hour across and every station down, on one page for a small row', () => {
    const { pages } = tally(HOST, rowOf(4))
    expect(pages).toHaveLength(1)
    expect(pages[0]?.times).toEqual(['18:30', '19:00', '19:30', '20:00', '20:30', '21:00'])
    expect(pages[0]?.stations).toEqual(['Station 0', 'Station 1', 'Station 2', 'Station 3'])
    expect(pages[0]?.verdicts).toEqual(pages[0]?.stations)
    expect(pages[0]?.gate).toEqual(['Adults in', 'Adults out', 'Children in', 'Children out'])
  })

  it('puts who saw it on a page of its own for a long row', () => {
    const { pages, isDense } = tally(HOST, rowOf(12))
    expect(pages).toHaveLength(2)
    expect(pages[0]?.verdicts).toEqual([])
    expect(pages[1]).toMatchObject({ times: [], stations: [], gate: [] })
    expect(pages[1]?.verdicts).toHaveLength(12)
    expect(isDense).toBe(true)
  })

  it('shares the half hours of a long night out over pages, none lost', () => {
    const long = { ...A_FULL_PRINT, night: { ...night, opens: '18:00', closes: '03:00' } }
    const times = tally(HOST, long).pages.map((page) => page.times)
    expect(times.map(({ length }) => length)).toEqual([6, 6, 6, 0])
    expect(new Set(times.flat()).size).toBe(18)
  })

  it('still counts the gate where no station stands', () => {
    const { pages } = tally(HOST, AN_EMPTY_PRINT)
    expect(pages).toHaveLength(1)
    expect(pages[0]?.gate).toHaveLength(4)
    expect(pages[0]?.stations).toEqual([])
  })
})
