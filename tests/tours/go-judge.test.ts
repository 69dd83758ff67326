import { describe, expect, it } from 'vitest'
import {
  type GoReading,
  judgedReadings,
  proposalOf,
  type ReadingKind,
  standingOf,
} from '../../server/tours/go-judge.ts'
import { goLimitProblems, SHIPPED_LIMITS } from '../../server/tours/go-limits.ts'
import { decisionAt, FIRST_PLAN, goPlanProblems, isDecisionDue, usualDecision } from '../../server/tours/go-plan.ts'
import { goValueProblems } from '../../server/tours/go-values.ts'
import { calendarDate, wallClock } from '../../server/tours/hours.ts'
import {
  speedText,
  speedTyped,
  speedWritten,
  temperatureTyped,
  temperatureWritten,
} from '../../server/words/weather.ts'
import { A_NIGHT } from '../support/field-data.ts'

const reading = (kind: ReadingKind, value: number, minute = 0): GoReading => ({
  kind,
  value,
  enteredAt: new Date(Date.UTC(2026, 10, 20, 14, minute)),
  enteredBy: 'host',
})
const standing = (kind: ReadingKind, value: number, cloud: 'cloud' | 'moonCloud' = 'moonCloud') =>
  standingOf(SHIPPED_LIMITS, cloud, { kind, value })
const proposed = (...readings: readonly GoReading[]) =>
  proposalOf(judgedReadings(SHIPPED_LIMITS, 'moonCloud', readings))

describe('a value beside the host’s limit', () => {
  it('is doubtful and over from the very limit on', () => {
    expect([49, 50, 69, 70].map((value) => standing('cloud', value))).toEqual(['fine', 'doubtful', 'doubtful', 'over'])
    expect([29, 30, 49, 50].map((value) => standing('cloud', value, 'cloud'))).toEqual([
      'fine',
      'doubtful',
      'doubtful',
      'over',
    ])
    expect([109, 110].map((value) => standing('air', value))).toEqual(['doubtful', 'over'])
  })

  it('goes the other way for cold', () => {
    expect([-1.9, -2, -9.9, -10].map((value) => standing('temperature', value))).toEqual([
      'fine',
      'doubtful',
      'doubtful',
      'over',
    ])
  })

  it('takes the published 15 and 18 mph for the limits that they are, in whatever unit they are typed', () => {
    const typed = ['14 mph', '15 mph', '17 mph', '18 mph'].map((text) => speedTyped(text, 'metric'))
    expect(typed.map((value) => standing('wind', value))).toEqual(['fine', 'doubtful', 'doubtful', 'over'])
  })

  it('is over for thunder whatever the host says of rain', () => {
    const limits = { ...SHIPPED_LIMITS, rain: 'doubtful' as const }
    expect(standingOf(limits, 'cloud', { kind: 'thunder', value: 1 })).toBe('over')
    expect(standingOf(limits, 'cloud', { kind: 'rain', value: 1 })).toBe('doubtful')
    expect(standing('rain', 1)).toBe('over')
  })
})

describe('a proposal', () => {
  it('goes by the worst of the last values and names it', () => {
    const calm = [reading('wind', 5), reading('cloud', 80), reading('cloud', 10, 30)]
    expect(proposed(...calm)).toMatchObject({ state: 'on' })
    expect(proposed(...calm, reading('gust', 40))).toMatchObject({ state: 'doubtful', because: ['gust'] })
    expect(proposed(...calm, reading('gust', 40), reading('air', 200))).toMatchObject({
      state: 'off',
      because: ['air'],
    })
  })

  it('never takes for fine what nobody entered', () => {
    expect(proposed()).toMatchObject({ state: 'unknown', because: ['cloud', 'wind'] })
    expect(proposed(reading('cloud', 0), reading('rain', 0))).toMatchObject({ state: 'unknown', because: ['wind'] })
    expect(proposed(reading('cloud', 0), reading('wind', 0)).missing).toEqual([
      'gust',
      'air',
      'temperature',
      'rain',
      'thunder',
    ])
    expect(proposed(reading('thunder', 1)).state).toBe('off')
  })
})

describe('weather as people type it', () => {
  it('reads a bare number in the reader’s units and any other with its unit', () => {
    const texts = ['18', '18 mph', '29km/h', '8 m/s', '8,5 m/s', 'strong', '18 knots']
    expect(texts.map((text) => speedTyped(text, 'imperial'))).toEqual([29, 29, 29, 29, 31, Number.NaN, Number.NaN])
    expect(speedTyped('18', 'metric')).toBe(18)
    expect(['−2', '28 F', '28°F', '-2,5 °C'].map((text) => temperatureTyped(text, 'metric'))).toEqual([
      -2, -2.2, -2.2, -2.5,
    ])
    expect(temperatureTyped('14', 'imperial')).toBe(-10)
  })

  it('gives every whole number back as it was typed, and every value that was kept', () => {
    for (let n = 0; n < 90; n++) {
      expect(speedWritten(speedTyped(String(n), 'imperial'), 'imperial')).toBe(String(n))
      expect(temperatureWritten(temperatureTyped(String(n), 'imperial'), 'imperial')).toBe(String(n))
    }
    for (let n = 0; n < 150; n++) {
      const celsius = (n - 90) / 10
      expect(speedTyped(speedWritten(n, 'imperial'), 'imperial')).toBe(n)
      expect(temperatureTyped(temperatureWritten(celsius, 'imperial'), 'imperial')).toBe(celsius)
    }
    expect([speedWritten(30, 'imperial'), temperatureWritten(-2, 'imperial')]).toEqual(['18.6', '28.4'])
    expect(speedText(29, { language: 'en', hours12: false, units: 'both' })).toBe('29 km/h (18 mph)')
  })

  it('refuses what cannot be, each at its field', () => {
    expect(goValueProblems({}).map(({ key }) => key)).toEqual(['problem.go-nothing'])
    expect(goValueProblems({ cloud: 120 })).toMatchObject([{ field: 'cloud', key: 'problem.range' }])
    expect(goValueProblems({ wind: Number.NaN })).toMatchObject([{ field: 'wind', key: 'problem.go-speed' }])
    expect(goValueProblems({ wind: 30, gust: 20 })).toMatchObject([{ field: 'gust', key: 'problem.go-gust' }])
    const limits = { ...SHIPPED_LIMITS, wind: { doubtful: 30, off: 20 }, temperature: { doubtful: -9, off: 0 } }
    expect(goLimitProblems(limits)).toMatchObject([
      { field: 'wind.doubtful', key: 'problem.go-order' },
      { field: 'temperature.doubtful', key: 'problem.go-order-cold' },
    ])
    expect(goLimitProblems(SHIPPED_LIMITS)).toEqual([])
    const late = { ...FIRST_PLAN, decidesAt: 'noon', backUpDate: null }
    expect(goPlanProblems(late, A_NIGHT)).toMatchObject([{ field: 'decidesAt', key: 'problem.go-clock' }])
    expect(goPlanProblems({ ...FIRST_PLAN, backUpDate: A_NIGHT.date }, A_NIGHT)).toMatchObject([
      { field: 'backUpDate', key: 'problem.go-back-up-early' },
    ])
  })
})

describe('the time to decide', () => {
  const told = (at: Date, zone = A_NIGHT.site.zone) => `${calendarDate(at, zone)} ${wallClock(at, zone)}`
  const night = (opens: string, closes: string) => ({ ...A_NIGHT, date: '2026-11-20', opens, closes })

  it('is three hours before the opening by the half hour, not before noon and at least two hours before', () => {
    const usual = ['18:50', '14:30', '13:00', '00:30'].map((opens) => told(usualDecision(night(opens, '23:00'))))
    expect(usual.slice(0, 3)).toEqual(['2026-11-20 15:30', '2026-11-20 12:00', '2026-11-20 11:00'])
    expect(told(usualDecision(night('00:30', '03:00')))).toBe('2026-11-19 21:30')
  })

  it('is the last such time before the opening where the host names one', () => {
    expect(told(decisionAt(night('19:00', '22:00'), '11:00'))).toBe('2026-11-20 11:00')
    expect(told(decisionAt(night('19:00', '22:00'), '20:00'))).toBe('2026-11-19 20:00')
    expect(told(decisionAt(night('00:30', '03:00'), '21:00'))).toBe('2026-11-19 21:00')
  })

  it('is due from then on until the night is over, while nothing is decided', () => {
    const at = usualDecision(A_NIGHT)
    const due = (now: Date, state: 'planned' | 'off' = 'planned') => isDecisionDue({ ...A_NIGHT, state }, at, now)
    expect([due(new Date(at.getTime() - 1)), due(at), due(at, 'off')]).toEqual([false, true, false])
    expect(due(new Date(at.getTime() + 24 * 3_600_000))).toBe(false)
  })
})
