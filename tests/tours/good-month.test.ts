import { describe, expect, it } from 'vitest'
import { skyEvening } from '../../server/sky/evening.ts'
import { type InMonth, inMonth, moonlessChance, moonlessSky } from '../../server/tours/good-month.ts'
import { wallClock } from '../../server/tours/hours.ts'
import {
  type MonthAsk,
  type MonthNight,
  monthNight,
  moonNight,
  PLAIN_TELESCOPE,
} from '../../server/tours/month-night.ts'
import type { ShowObject } from '../../server/tours/target.ts'
import { A_SITE, A_TELESCOPE, AN_OBJECT } from '../support/field-data.ts'
import { showObject } from '../support/show-objects.ts'

const OPEN = { ...A_SITE, horizon: [], glow: [] }
const ask = (month: string, given: Partial<MonthAsk> = {}): MonthAsk => ({
  site: OPEN,
  month,
  telescopes: [A_TELESCOPE],
  noviceFactor: 4,
  ...given,
})

function the(night: MonthNight | null): MonthNight {
  if (night === null) throw new Error('The tests ask for months with an evening')
  return night
}

function seen(asked: MonthAsk, object: ShowObject, night = the(monthNight(asked))): InMonth {
  const sky = moonlessSky(night, [object])
  const [found] = inMonth(night, sky, moonlessChance(sky, night, [object]), [object])
  if (!found) throw new Error('Each object has an answer')
  return found
}

const M42 = showObject({
  key: 'm42',
  kind: 'nebula',
  raDeg: 83.8,
  decDeg: -5.4,
  magnitude: 4,
  majorArcmin: 30,
  minorArcmin: 25,
})
const FAINT = showObject({
  key: 'faint',
  kind: 'galaxy',
  raDeg: 83.8,
  decDeg: 20,
  magnitude: 13,
  majorArcmin: 5,
  minorArcmin: 4,
})
const MARS = showObject({ key: 'mars', kind: 'planet', body: 'mars', raDeg: null, decDeg: null, magnitude: null })
const MOON = showObject({ key: 'moon', kind: 'moon', body: 'moon', raDeg: null, decDeg: null, magnitude: null })

describe('the evening that stands for a month', () => {
  it('is the 15th, from an hour after sunset to 23:30 by the clocks of the site, and dark from the second dusk', () => {
    const { night, darkAt, closesAt, quarters } = the(monthNight(ask('2027-01')))
    const { sunsetAt, nauticalDuskAt } = skyEvening(new Date('2027-01-15T11:00:00Z'), OPEN)
    const opens = wallClock(new Date((sunsetAt?.getTime() ?? 0) + 3_600_000), OPEN.zone)
    expect([night.date, night.opens, night.closes]).toEqual(['2027-01-15', opens, '23:30'])
    expect(darkAt).toEqual(nauticalDuskAt)
    expect(opens).toMatch(/^17:4\d$/)
    expect(wallClock(closesAt, OPEN.zone)).toBe('23:30')
    expect(quarters.map((at) => wallClock(at, OPEN.zone)).slice(0, 3)).toEqual([opens, '18:00', '18:15'])
  })

  it('is the one with a growing half Moon for the Moon', () => {
    // First quarter on 2027 January 15 in the evening, and on 2026 December 17 before dawn: from memory.
    expect(the(moonNight(ask('2027-01'))).night.date).toBe('2027-01-15')
    expect(the(moonNight(ask('2026-12'))).night.date).toBe('2026-12-16')
  })

  it('is none where the Sun sets too late or not at all, and starts at 17:00 where it never rises', () => {
    const north = { ...OPEN, latitudeDeg: 70, longitudeDeg: 20, zone: 'Europe/Oslo' }
    expect(monthNight(ask('2027-06', { site: north }))).toBeNull()
    expect(the(monthNight(ask('2026-12', { site: north }))).night.opens).toBe('17:00')
  })
})

describe('what is good in a month', () => {
  it('is the great nebula in January and not in July', () => {
    const january = seen(ask('2027-01'), M42)
    expect(january).toMatchObject({ isGood: true, telescopeId: A_TELESCOPE.id })
    expect(january.chance).toBeGreaterThan(0.9)
    expect(january.clear).toMatchObject({ before: null, after: null })
    expect(seen(ask('2027-07'), M42)).toEqual({ key: 'm42', chance: 0, telescopeId: null, clear: null, isGood: false })
  })

  it('is nothing that stands well and that half of the newcomers miss', () => {
    const faint = seen(ask('2027-01'), FAINT)
    expect(faint.clear).not.toBeNull()
    expect(faint.chance).toBeLessThan(0.5)
    expect(faint.isGood).toBe(false)
  })

  it('is nothing that trees leave for less than an hour, by the same gate as a programme', () => {
    const wall = (altitudeDeg: number) => ({
      ...OPEN,
      horizon: [90, 135, 180, 225, 270].map((azimuthDeg) => ({ azimuthDeg, altitudeDeg, name: 'gym' })),
    })
    expect(seen(ask('2027-01', { site: wall(34.3) }), M42)).toMatchObject({ clear: null, isGood: false })
    const low = seen(ask('2027-01', { site: wall(20) }), M42)
    expect(low.isGood).toBe(true)
    expect(low.clear?.before).toEqual({ code: 'skyline', name: 'gym' })
    const short = (low.clear?.untilAt.getTime() ?? 0) - (low.clear?.fromAt.getTime() ?? 0)
    expect(short).toBeGreaterThanOrEqual(3_600_000)
  })

  it('names the telescope of the kit that shows it best', () => {
    const small = {
      ...PLAIN_TELESCOPE,
      id: 'small',
      tubes: PLAIN_TELESCOPE.tubes.map((tube) => ({ ...tube, apertureMm: 60 })),
    }
    const cluster = { ...AN_OBJECT, raDeg: 83.8 }
    const alone = seen(ask('2027-01', { telescopes: [small] }), cluster)
    const both = seen(ask('2027-01', { telescopes: [small, A_TELESCOPE] }), cluster)
    expect(alone.telescopeId).toBe('small')
    expect(both.telescopeId).toBe(A_TELESCOPE.id)
    expect(both.chance).toBeGreaterThan(alone.chance)
  })

  it('is a planet in twilight already, and only planets where the nights are white', () => {
    const white = ask('2027-06', { site: { ...OPEN, latitudeDeg: 51 } })
    const { darkAt } = the(monthNight(white))
    expect(darkAt && wallClock(darkAt, OPEN.zone)).toBe('23:26')
    expect(seen(white, { ...M42, decDeg: 60 }).clear).toBeNull()
    expect(seen(white, MARS)).toMatchObject({ isGood: true })
  })

  it('leaves the light of the Moon out, and has the Moon in its own best evening', () => {
    const night = the(moonNight(ask('2027-01')))
    const sky = moonlessSky(night, [MOON])
    expect(Math.max(...sky.moonAltitudeDeg)).toBe(-90)
    expect(seen(ask('2027-01'), MOON, night)).toMatchObject({ isGood: true, chance: 1 })
  })
})
