import { Value } from 'typebox/value'
import { describe, expect, it } from 'vitest'
import { type Known, type Told, toldMarks, toldProblems } from '../../server/tours/again-marks.ts'
import { MARK_PAYLOADS, MarkDraft } from '../../server/tours/mark.ts'
import type { News } from '../../server/tours/news.ts'
import { A_NIGHT } from '../support/field-data.ts'

const AT = new Date('2026-11-20T18:00:00Z')
const later = (minutes: number) => new Date(AT.getTime() + minutes * 60_000)
const NO_NEWS: News = { shut: [], shutUntilAt: null, out: [], cycleSec: new Map(), crowd: 1 }
const known = (news: Partial<News> = {}, more: Partial<Known> = {}): Known => ({
  stations: A_NIGHT.stations,
  news: { ...NO_NEWS, ...news },
  adultsIn: 30,
  childrenIn: 12,
  countedAt: later(-60),
  at: AT,
  ...more,
})
const told = (more: Partial<Told> = {}): Told => ({
  key: 'form-key',
  shut: [],
  minutes: 'as-told',
  out: [],
  timed: null,
  adults: null,
  children: null,
  opens: A_NIGHT.opens,
  closes: A_NIGHT.closes,
  ...more,
})
const payloads = (said: Partial<Told>, before = known()) => toldMarks(told(said), before).map(({ payload }) => payload)
const fields = (said: Partial<Told>, before = known()) =>
  toldProblems(told(said), before).map(({ field, key }) => `${field} ${key}`)

describe('what the host tells', () => {
  it('is no mark as long as it is what was known', () => {
    expect(toldMarks(told(), known())).toEqual([])
    const before = known({
      shut: ['w'],
      shutUntilAt: later(20),
      out: ['station-1'],
      cycleSec: new Map([['station-1', 46]]),
    })
    const same = told({ shut: ['w'], out: ['station-1'], timed: { stationId: 'station-1', people: 10, seconds: 460 } })
    expect(toldMarks(same, before)).toEqual([])
    expect(toldMarks(told({ shut: ['w'], minutes: null }), known({ shut: ['w'] }))).toEqual([])
  })

  it('becomes one mark for each thing that differs, each with a key of its own', () => {
    const said = told({
      shut: ['w', 'nw'],
      minutes: 30,
      out: ['station-1'],
      timed: { stationId: 'station-1', people: 10, seconds: 460 },
      adults: 34,
      children: 10,
    })
    const marks = toldMarks(said, known())
    expect(marks.map(({ kind, stationId, payload }) => [kind, stationId, payload])).toEqual([
      ['clouds', null, { shut: ['w', 'nw'], minutes: 30 }],
      ['station', 'station-1', { is: 'out' }],
      ['timed', 'station-1', { people: 10, seconds: 460 }],
      ['counted', null, { adults: 4, children: -2 }],
    ])
    expect(new Set(marks.map(({ key }) => key)).size).toBe(4)
    for (const mark of marks) {
      expect(Value.Check(MarkDraft, mark)).toBe(true)
      expect(Value.Check(MARK_PAYLOADS[mark.kind], mark.payload)).toBe(true)
    }
    expect(toldMarks(said, known())).toEqual(marks)
  })

  it('lets other clouds last as long as was told of those before, and never less than five minutes', () => {
    const until = (minutes: number) => known({ shut: ['w'], shutUntilAt: later(minutes) })
    expect(payloads({ shut: ['w', 'sw'] }, until(21.5))).toEqual([{ shut: ['w', 'sw'], minutes: 22 }])
    expect(payloads({ shut: ['w', 'sw'] }, until(1))).toEqual([{ shut: ['w', 'sw'], minutes: 5 }])
    expect(payloads({ shut: ['sw'] }, known({ shut: ['w'] }))).toEqual([{ shut: ['sw'], minutes: null }])
  })

  it('lets the same clouds last longer, and takes them away', () => {
    const before = known({ shut: ['w'], shutUntilAt: later(3) })
    expect(payloads({ shut: ['w'], minutes: 60 }, before)).toEqual([{ shut: ['w'], minutes: 60 }])
    expect(payloads({ shut: ['w'], minutes: null }, before)).toEqual([{ shut: ['w'], minutes: null }])
    expect(payloads({ shut: [], minutes: 60 }, before)).toEqual([{ shut: [], minutes: null }])
  })

  it('brings a station back', () => {
    expect(payloads({}, known({ out: ['station-1'] }))).toEqual([{ is: 'in' }])
  })

  it('counts one sort of people alone, and repeats a count once the last one is a while ago', () => {
    expect(payloads({ children: 20 })).toEqual([{ adults: 0, children: 8 }])
    const same = { adults: 30, children: 12 }
    expect(payloads(same)).toEqual([{ adults: 0, children: 0 }])
    expect(payloads(same, known({}, { countedAt: later(-1) }))).toEqual([])
    expect(payloads(same, known({}, { countedAt: null }))).toHaveLength(1)
  })
})

describe('what is wrong with it', () => {
  it('is told at its field', () => {
    const timed = { stationId: '', people: Number.NaN, seconds: 5 }
    expect(fields({ timed })).toEqual([
      'timed.stationId problem.choice',
      'timed.people problem.type-integer',
      'timed.seconds problem.range',
    ])
    expect(fields({ adults: Number.NaN, children: 1.5 })).toEqual([
      'adults problem.type-integer',
      'children problem.type-integer',
    ])
    expect(fields({ adults: 531, children: -1 })).toEqual(['adults problem.range', 'children problem.range'])
  })

  it('is a look that is far too short, as when the seconds of one person were written', () => {
    const seconds = (sum: number) => ({ timed: { stationId: 'station-1', people: 10, seconds: sum } })
    expect(fields(seconds(46))).toEqual(['timed.seconds again.look-odd'])
    expect([fields(seconds(460)), fields(seconds(100))]).toEqual([[], []])
  })

  it('is nothing of what was left blank', () => {
    expect(toldProblems(told(), known())).toEqual([])
  })
})
