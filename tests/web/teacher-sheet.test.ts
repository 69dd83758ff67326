import { describe, expect, it } from 'vitest'
import { classPlan } from '../../server/tours/class-rounds.ts'
import { NO_VISIT } from '../../server/tours/class-visit.ts'
import { NO_NOTES } from '../../server/tours/site-notes.ts'
import { classCloud } from '../../server/web/pages/class-cloud.ts'
import { classLetter } from '../../server/web/pages/class-letter.ts'
import { pagesOf } from '../../server/web/pages/paper-pages.ts'
import { teacherSheet } from '../../server/web/pages/teacher-sheet.ts'
import { A_NIGHT, A_SITE } from '../support/field-data.ts'
import { A_VISIT, SOME_NOTES } from '../support/note-pages.ts'
import { HOST } from '../support/page-data.ts'
import { A_FULL_PRINT, AN_EMPTY_PRINT } from '../support/paper-pages.ts'

const { night } = A_FULL_PRINT
const withClass = (groups: number) => ({
  ...A_FULL_PRINT,
  night: { ...night, settings: { ...night.settings, schoolClass: { startsAt: '18:30', endsAt: '19:30', groups } } },
})

describe('the sheet for a teacher', () => {
  it('fills in the hours and groups that are known, and leaves the rest to be written', () => {
    const unsettled = { ...withClass(3), visit: NO_VISIT, siteNotes: NO_NOTES }
    const { facts, settle } = teacherSheet(HOST, unsettled)
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

describe('the rounds of a class', () => {
  const stations = ['a', 'b', 'c', 'd', 'e'].map((id) => ({ id }))
  const [stop] = A_FULL_PRINT.tour.stops
  if (!stop) throw new Error('The tour of the tests has a stop')
  const [startsAt, endsAt] = [stop.startsAt, stop.endsAt]
  const stops = [0.1, 0.9, 0.2, 0.8, 0].map((chance, i) => ({
    ...stop,
    stationId: 'abcde'[i] ?? '',
    chance,
    view: 1,
  }))
  const planOf = (groups: number, row = stations) => classPlan({ startsAt, endsAt, groups }, row, stops)

  it('show every group the best two, where there are more stations than rounds', () => {
    for (const groups of [2, 3, 4, 5]) {
      const { rounds, best } = planOf(groups)
      expect(best).toEqual([1, 3])
      for (let group = 0; group < groups; group++) {
        const seen = rounds.map((places) => places[group])
        expect(seen).toEqual(expect.arrayContaining([1, 3]))
        expect(new Set(seen).size).toBe(groups)
      }
      for (const places of rounds) expect(new Set(places).size).toBe(groups)
    }
  })

  it('bring every group to every station where there are more groups', () => {
    const { rounds } = planOf(7, stations.slice(0, 3))
    for (let group = 0; group < 7; group++) {
      expect(new Set(rounds.map((places) => places[group]))).toEqual(new Set([0, 1, 2]))
    }
  })

  it('call none the best where nothing is shown at two stations', () => {
    expect(classPlan({ startsAt, endsAt, groups: 2 }, stations, []).best).toEqual([])
  })
})

describe('papers of a class', () => {
  it('write to the parents what is agreed, and leave lines where nothing is', () => {
    const letter = classLetter(HOST, { ...withClass(3), visit: A_VISIT })
    const known = Object.fromEntries([...letter.facts, ...letter.decides].map(({ label, value }) => [label, value]))
    expect(known).toMatchObject({
      'From when to when': '18:30 to 19:30',
      'Who decides': 'Ms Weaver',
      'By when': 'noon',
    })
    expect(letter.opening).toContain('November')
    expect(known.Toilets).toBe(SOME_NOTES.toilets)
    expect(letter.safety.join(' ')).toContain('2 adults')
    expect(letter.slip.photos).not.toBeNull()
    const blank = classLetter(HOST, { ...AN_EMPTY_PRINT, visit: { ...NO_VISIT, asksPhotos: false } })
    expect([...blank.facts, ...blank.decides, blank.phone].every(({ value }) => value === null)).toBe(true)
    expect(blank.slip.photos).toBeNull()
  })

  it('fill in the sheet of the teacher', () => {
    const { facts, settle, rounds, bring } = teacherSheet(HOST, { ...withClass(3), visit: A_VISIT })
    expect(facts.at(-1)?.value).toBe('At the gate')
    expect(settle[0]?.value).toBe('Ms Weaver, noon, on the door of the school')
    expect(rounds?.rule).toMatch(/^Nothing moves/)
    expect(bring.join(' ')).toContain('2 adults')
  })

  it('fill forty-five minutes by the clock of the class, and keep the planets to scale', () => {
    const { parts, fruits } = classCloud(HOST, withClass(3))
    expect(parts.map(({ clock }) => clock)).toEqual(['18:30', '18:35', '18:45', '18:55', '19:05', '19:12'])
    expect(parts.at(-1)?.time).toMatch(/45/)
    const widths = Object.fromEntries(fruits.map(({ world, width }) => [world, width]))
    expect(widths).toMatchObject({
      Earth: '2 cm',
      Jupiter: '22 cm',
      Mars: '1.1 cm',
      'The Moon': '0.5 cm',
      'The Sun': '2.2 m',
    })
    const south = { ...A_FULL_PRINT, night: { ...A_NIGHT, site: { ...A_SITE, latitudeDeg: -34 } } }
    const told = (subject: typeof A_FULL_PRINT) => classCloud(HOST, subject).parts[3]?.says[0]
    expect(told(south)).toContain('cross')
    expect(told(A_FULL_PRINT)).toContain('plough')
  })
})
