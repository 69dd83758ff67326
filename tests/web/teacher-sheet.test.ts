import { describe, expect, it } from 'vitest'
import { pagesOf } from '../../server/web/pages/paper-pages.ts'
import { teacherSheet } from '../../server/web/pages/teacher-sheet.ts'
import { HOST } from '../support/page-data.ts'
import { A_FULL_PRINT, AN_EMPTY_PRINT } from '../support/paper-pages.ts'

const { night } = A_FULL_PRINT
const withClass = (groups: number) => ({
  ...A_FULL_PRINT,
  night: { ...night, settings: { ...night.settings, schoolClass: { startsAt: '18:30', endsAt: '19:30', groups } } },
})

describe('the sheet for a teacher', () => {
  it('fills in the hours and groups that are known, and leaves the rest to be written', () => {
    const { facts, settle } = teacherSheet(HOST, withClass(3))
    expect(facts.map(({ value }) => value)).toEqual(['18:30 to 19:30', '3', '18:30 to 21:30', null])
    expect(settle.every(({ value }) => value === null)).toBe(true)
    expect(settle.map(({ label }) => label).join()).toMatch(/photos.*Toilets.*Bus/)
  })

  it('leaves hours and groups open on a night without a class', () => {
    const { facts, rounds } = teacherSheet(HOST, A_FULL_PRINT)
    expect(facts.slice(0, 2).map(({ value }) => value)).toEqual([null, null])
    expect(rounds).toBeNull()
  })

  it('sends every group on at each bell, no two of them to one station', () => {
    const { rounds } = teacherSheet(HOST, withClass(3))
    expect(rounds?.rounds.map(({ time }) => time)).toEqual(['18:30', '18:50', '19:10'])
    for (const { places } of rounds?.rounds ?? []) expect(new Set(places).size).toBe(3)
    expect(rounds?.rounds.map(({ places }) => places[0])).toEqual(['1', '2', '3'])
    expect(rounds?.stations).toBe('Stations: 1 By the oak, 2 Star walk, 3 Two tripods, 4 White sheet, and 5 Ask us.')
  })

  it('gives the table a page of its own for many groups', () => {
    expect(teacherSheet(HOST, withClass(4)).isRoundsApart).toBe(false)
    expect(teacherSheet(HOST, withClass(12))).toMatchObject({ isRoundsApart: true, rounds: { groups: { length: 12 } } })
  })

  it('is counted as two pages where the table has its own', () => {
    const pagesWith = (groups: number) => pagesOf('teacher-sheet', teacherSheet(HOST, withClass(groups)), 'a4')
    expect([4, 6].map(pagesWith)).toEqual([1, 2])
    const night = { ...withClass(6).night, stations: [] }
    expect(pagesOf('teacher-sheet', teacherSheet(HOST, { ...A_FULL_PRINT, night }), 'a4')).toBe(1)
  })

  it('fills forty-five minutes when it is cloudy, without a gap', () => {
    const { cloud } = teacherSheet(HOST, AN_EMPTY_PRINT)
    const spans = cloud.map(({ time }) => time.match(/\d+/g)?.map(Number) ?? [])
    expect([spans[0]?.[0], spans.at(-1)?.[1]]).toEqual([0, 45])
    for (const [k, span] of spans.slice(1).entries()) expect(span[0]).toBe(spans[k]?.[1])
  })
})
