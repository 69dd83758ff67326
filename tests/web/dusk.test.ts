import { describe, expect, it } from 'vitest'
import { boardPage } from '../../server/web/pages/board.ts'
import { runSheet } from '../../server/web/pages/run-sheet.ts'
import { A_NIGHT } from '../support/field-data.ts'
import { AN_EVENING, HOLDING, HOST, NAMES, TOUR } from '../support/page-data.ts'

/** The evening of the page data is that of Friday 20 November 2026. */
const late = { ...A_NIGHT, date: '2026-11-21', opens: '00:30', closes: '03:00' }
const labelsOf = (night: typeof A_NIGHT) => {
  const sheet = runSheet(HOST, {
    night,
    evening: AN_EVENING,
    tour: TOUR,
    isStale: false,
    names: NAMES,
    beside: [],
    look: { paper: 'a4' },
  })
  const board = boardPage(HOST, {
    night,
    evening: AN_EVENING,
    tour: TOUR,
    state: HOLDING,
    field: undefined,
    out: [],
    go: undefined,
    phones: [],
    backups: null,
    siteCount: 1,
    telescopeCount: 1,
    names: NAMES,
    newKey: () => 'key-12345',
  })
  return [sheet.dusks, board.night?.dusks ?? []].map((dusks) => dusks.map(({ label }) => label))
}

describe('sunset and dusk on run sheet and board', () => {
  it('name the day before when the night is dated after midnight', () => {
    const labels = ['Friday’s sunset', 'Friday’s first dusk', 'Friday’s second dusk', 'Full dark']
    expect(labelsOf(late)).toEqual([labels, labels])
  })

  it('are plain when they are those of the date itself', () => {
    const labels = ['Sunset', 'First dusk', 'Second dusk', 'Full dark']
    expect(labelsOf(A_NIGHT)).toEqual([labels, labels])
  })
})
