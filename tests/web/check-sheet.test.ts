import { describe, expect, it } from 'vitest'
import type { Check, CheckLine } from '../../server/tours/check.ts'
import { checkSheet } from '../../server/web/pages/check-sheet.ts'
import { halvesText, pointShort } from '../../server/words/directions.ts'
import { A_NIGHT } from '../support/field-data.ts'
import { A_LINE, ENGLISH, HOST, NAMES, TOUR } from '../support/page-data.ts'

const halfHour = (k: number, line: Partial<CheckLine>, spare: Partial<CheckLine> = {}): Check => ({
  at: new Date(Date.UTC(2026, 10, 20, 17, 30 + 30 * k)),
  lines: [
    { ...A_LINE, ...spare, targetKey: 'moon', isSpare: true },
    { ...A_LINE, ...line },
  ],
  changes: [],
})
const sheet = (checks: readonly Check[]) =>
  checkSheet(HOST, { night: A_NIGHT, tour: TOUR, isStale: false, checks, names: NAMES })

describe('the half-hour checks on paper', () => {
  it('put targets down and half hours across, the programme before the spares', () => {
    const [table] = sheet([halfHour(0, {}), halfHour(1, {})]).tables
    expect(table?.times).toEqual(['18:30', '19:00'])
    expect(table?.stations.map(({ name }) => name)).toEqual(['By the oak'])
    expect(table?.stations[0]?.rows.map(({ name, note }) => [name, note])).toEqual([
      ['Great cluster in Hercules', ''],
      ['moon', 'spare'],
    ])
  })

  it('have a mark for each of the four groups, with minutes, direction, fists and eyepiece where it can be shown', () => {
    const { tables } = sheet([
      halfHour(0, { group: 'coming', fromAt: new Date('2026-11-20T17:40:00Z'), untilAt: null, minutesLeft: null }),
      halfHour(1, { group: 'good', minutesLeft: 55 }),
      halfHour(2, {}),
      halfHour(3, { group: 'gone', minutesLeft: null }),
      halfHour(4, { group: 'good', untilAt: null, minutesLeft: null }),
    ])
    expect(tables[0]?.stations[0]?.rows[0]?.cells).toEqual([
      { where: '', state: '18:40', eye: '', isChanged: false },
      { where: 'WNW 2½', state: '+ 55 min', eye: '131 cm', isChanged: true },
      { where: 'WNW 2½', state: '! 25 min', eye: '131 cm', isChanged: true },
      { where: '', state: '– oak', eye: '', isChanged: true },
      { where: 'WNW 2½', state: '+ stays', eye: '131 cm', isChanged: true },
    ])
  })

  it('are cut into tables that a paper holds, and a change across the cut is still seen', () => {
    const checks = Array.from({ length: 9 }, (_, k) => halfHour(k, { group: k < 5 ? 'good' : 'going' }))
    const { tables } = sheet(checks)
    expect(tables.map(({ times }) => times.length)).toEqual([5, 4])
    expect(tables[1]?.stations[0]?.rows[0]?.cells[0]?.isChanged).toBe(true)
  })

  it('say when there is nothing to check', () => {
    expect(sheet([]).emptyText).toBeTruthy()
    expect(sheet([halfHour(0, {})]).emptyText).toBeNull()
  })
})

describe('directions for tables', () => {
  it('are letters and numbers', () => {
    expect([0, 4, 11, 15].map((point) => pointShort(ENGLISH, point))).toEqual(['N', 'E', 'WSW', 'NNW'])
    expect([0, 0.5, 1, 2.5].map((fists) => halvesText(ENGLISH, fists))).toEqual(['0', '½', '1', '2½'])
  })
})
