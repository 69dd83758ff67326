import { describe, expect, it } from 'vitest'
import type { Who } from '../../server/desk/desk.ts'
import { fieldRowPage } from '../../server/web/pages/field-row.ts'
import type { Viewer } from '../../server/web/pages/sheet.ts'
import { A_NIGHT } from '../support/field-data.ts'
import { BARE_FIELD, FIELD } from '../support/field-subject.ts'
import { THE_HOST } from '../support/join-data.ts'
import { HOST, VISITOR } from '../support/page-data.ts'

const OPERATOR_WHO: Who = { ...THE_HOST, role: 'operator', nightId: A_NIGHT.id }
const OPERATOR: Viewer = { ...HOST, mayHost: false, who: OPERATOR_WHO }

describe('the row', () => {
  const row = (more: Partial<typeof FIELD> = {}, viewer = OPERATOR) =>
    fieldRowPage(viewer, { ...FIELD, news: BARE_FIELD.news, ...more })

  it('says who shows what, until when and what next, who stands there, and where trouble is', () => {
    expect(row().stations[0]).toEqual({
      id: 'station-1',
      name: 'By the oak',
      who: 'Ines and Mira',
      now: 'Great cluster in Hercules',
      until: 'until 19:40: oak',
      next: 'Next: 19:30 Great cluster in Hercules, close up',
      trouble: 'Trouble: cloud in the way.',
      href: '/field/night-1/station-1',
      open: 'Open: By the oak',
      stand: { action: '/field/night-1/stand', stationId: 'station-1', text: 'Stand here: By the oak' },
    })
    const there = { ...OPERATOR, who: { ...OPERATOR_WHO, stationId: 'station-1' } }
    expect(row({}, there).stations[0]).toMatchObject({ open: 'You stand here: By the oak', stand: null })
    expect([row().ask, row({}, there).ask]).toEqual(['Tap “Stand here” at your telescope.', null])
    for (const viewer of [VISITOR, { ...HOST, who: THE_HOST }]) {
      expect(row({}, viewer).stations[0]).toMatchObject({ open: 'Open: By the oak', stand: null })
      expect(row({}, viewer).ask).toBeNull()
    }
  })

  it('says of a station that has left the row no more than that', () => {
    expect(row({ news: FIELD.news }).stations[0]).toMatchObject({ now: 'Has left the row', until: null, next: null })
  })

  it('leads to the line, to cloud holes in the same look, to stars to align on and to the check', () => {
    expect(row({ look: 'day' }).ways.map(({ href }) => href)).toEqual([
      '/field/night-1/line',
      '/nights/night-1/hole?look=day',
      '/nights/night-1/align?look=day',
      '/nights/night-1/check?look=day',
    ])
    expect(row({ tour: undefined }).ways).toHaveLength(3)
  })
})
