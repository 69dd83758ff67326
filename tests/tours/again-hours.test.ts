import { describe, expect, it } from 'vitest'
import { draftOf, withHours } from '../../server/tours/night-draft.ts'
import { nightProblems } from '../../server/tours/problems.ts'
import { A_NIGHT, NIGHT_DRAFT } from '../support/field-data.ts'

const people = { adults: 9, children: 3, seated: 1 }
const night = { ...A_NIGHT, visitors: ['18:30', '19:00', '21:00'].map((startsAt) => ({ startsAt, ...people })) }
const NOW = new Date('2026-11-20T17:45:00Z')
const zone = night.site.zone
const rows = (opens: string, closes: string) =>
  withHours(night, { opens, closes }).visitors.map(({ startsAt }) => startsAt)

describe('a night as a draft', () => {
  it('is what was typed', () => {
    expect(draftOf(A_NIGHT)).toEqual(NIGHT_DRAFT)
  })

  it('takes other hours, without the people of half hours that fall away', () => {
    expect(rows('18:30', '21:30')).toEqual(['18:30', '19:00', '21:00'])
    expect(rows('19:00', '21:00')).toEqual(['19:00'])
    expect(rows('18:45', '21:15')).toEqual(['18:30', '19:00', '21:00'])
    expect(rows('18:30', '00:30')).toEqual(['18:30', '19:00', '21:00'])
    for (const hours of [
      { opens: '19:00', closes: '21:00' },
      { opens: '18:45', closes: '00:15' },
    ]) {
      expect(nightProblems(withHours(night, hours), NOW, zone)).toEqual([])
    }
  })

  it('keeps what is no clock time for its problem to be told', () => {
    const fields = (opens: string, closes: string) =>
      nightProblems(withHours(night, { opens, closes }), NOW, zone).map(({ field }) => field)
    expect(fields('late', '21:30')).toEqual(['opens'])
    expect(fields('18:30', '')).toEqual(['closes'])
    expect(fields('21:00', '20:00')).toContain('closes')
  })
})
