import { describe, expect, it } from 'vitest'
import { emergencyCard } from '../../server/web/pages/emergency-card.ts'
import { runSheet } from '../../server/web/pages/run-sheet.ts'
import { HOST } from '../support/page-data.ts'
import { A_FULL_PRINT, AN_EMPTY_PRINT } from '../support/paper-pages.ts'

describe('the emergency card', () => {
  it('gives the position and leaves the rest to be written in', () => {
    const { lines } = emergencyCard(HOST, A_FULL_PRINT)
    expect(lines.filter(({ value }) => value !== null)).toEqual([
      { label: 'Position', value: '48° 12.0′ north, 11° 36.0′ east' },
    ])
    expect(lines.map(({ label }) => label)).toEqual([
      'Emergency number',
      'Address',
      'Position',
      'Way in',
      'First aid',
      'In charge',
    ])
  })

  it('says what the run sheet says, word for word', () => {
    const sheet = runSheet(HOST, A_FULL_PRINT)
    const card = emergencyCard(HOST, A_FULL_PRINT)
    expect(card.lines).toEqual(sheet.emergency)
    expect(card.calls).toEqual(sheet.calls)
    expect(card.calls).toHaveLength(4)
  })

  it('says when it is out of date, and is whole without a programme', () => {
    expect(emergencyCard(HOST, A_FULL_PRINT).stale).toContain('Out of date')
    const card = emergencyCard(HOST, AN_EMPTY_PRINT)
    expect(card.stale).toBeNull()
    expect(card.lines).toHaveLength(6)
    expect(card.say).toHaveLength(4)
  })
})
