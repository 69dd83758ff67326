import { describe, expect, it } from 'vitest'
import { skyEvening } from '../../server/sky/evening.ts'
import { noPairCause, outlookInstants } from '../../server/tours/alignment-outlook.ts'
import { alignmentTimes } from '../../server/tours/alignment-times.ts'
import { eveningInstant, eveningSpan, wallClock } from '../../server/tours/hours.ts'
import type { Night } from '../../server/tours/night.ts'
import { sunTonight } from '../../server/tours/sun-tonight.ts'
import { brightStars } from '../support/bright-stars.ts'
import { demoNight } from '../support/demo-night.ts'

const stars = brightStars()

function nightAt(more: Partial<Night['site']>, when: Pick<Night, 'date' | 'opens' | 'closes'>): Night {
  return { ...demoNight, ...when, site: { ...demoNight.site, horizon: [], glow: [], ...more } }
}
const TROMSO = { latitudeDeg: 69.65, longitudeDeg: 18.95, zone: 'Europe/Oslo' }
const SVALBARD = { latitudeDeg: 78.22, longitudeDeg: 15.65, zone: 'Arctic/Longyearbyen' }
const NIGHTS = {
  light: nightAt(TROMSO, { date: '2026-06-21', opens: '21:00', closes: '23:30' }),
  white: nightAt(
    { latitudeDeg: 65, longitudeDeg: 25.5, zone: 'Europe/Helsinki' },
    { date: '2026-06-05', opens: '23:30', closes: '01:00' },
  ),
  twilight: nightAt(TROMSO, { date: '2026-12-21', opens: '18:00', closes: '21:00' }),
  dark: nightAt(SVALBARD, { date: '2026-12-21', opens: '18:00', closes: '21:00' }),
  nepal: nightAt(
    { latitudeDeg: 27.7, longitudeDeg: 85.3, zone: 'Asia/Kathmandu' },
    { date: '2026-12-17', opens: '18:00', closes: '20:00' },
  ),
  dateLine: nightAt(
    { latitudeDeg: 1.9, longitudeDeg: -157.4, zone: 'Pacific/Kiritimati' },
    { date: '2026-12-17', opens: '19:30', closes: '21:00' },
  ),
  late: nightAt({}, { date: '2026-12-18', opens: '00:30', closes: '03:00' }),
  clocksBack: nightAt({}, { date: '2026-10-24', opens: '20:00', closes: '04:00' }),
}
const eveningOf = (night: Night) => skyEvening(eveningSpan(night).fromAt, night.site)
const timesOf = (night: Night) => alignmentTimes(night, eveningOf(night)).map((at) => wallClock(at, night.site.zone))
const causesOf = (night: Night) => {
  const { fromAt, untilAt } = eveningSpan(night)
  const instants = [...outlookInstants(fromAt, untilAt)].filter((_, i) => i % 6 === 0)
  return instants.map((at) => noPairCause(stars, night, at))
}

describe('the times at which one may ask for stars', () => {
  it('are the quarter hours of the clocks from sunset to the closing', () => {
    const times = timesOf(demoNight)
    expect([times[0], times.at(-1), times.length]).toEqual(['16:45', '21:00', 18])
  })

  it('are quarters of the clocks where these are three quarters of an hour off, and across the date line', () => {
    const nepal = alignmentTimes(NIGHTS.nepal, eveningOf(NIGHTS.nepal))
    expect(timesOf(NIGHTS.nepal)[0]).toBe('17:15')
    expect(nepal[0]?.toISOString()).toBe('2026-12-17T11:30:00.000Z')
    expect(timesOf(NIGHTS.dateLine).at(-1)).toBe('21:00')
    expect(timesOf(NIGHTS.dateLine)[0]).toMatch(/^18:/)
  })

  it('reach over midnight, and from the sunset before a night that opens after it', () => {
    const times = timesOf(NIGHTS.late)
    expect([times[0], times.at(-1)]).toEqual(['16:45', '03:00'])
    expect(eveningInstant(NIGHTS.late, '17:00').toISOString()).toBe('2026-12-17T16:00:00.000Z')
    expect(eveningInstant(NIGHTS.late, '01:00').toISOString()).toBe('2026-12-18T00:00:00.000Z')
  })

  it('have each time of the clocks once in the night when they go back', () => {
    const times = timesOf(NIGHTS.clocksBack)
    expect(times).toContain('02:30')
    expect(new Set(times).size).toBe(times.length)
  })

  it('are none under a Sun that stays, and from two hours before the opening in the polar night', () => {
    expect(timesOf(NIGHTS.light)).toEqual([])
    expect(timesOf(NIGHTS.dark)[0]).toBe('16:00')
  })
})

describe('what stands in the way of a pair', () => {
  it('is the Sun through all of a night on which it stays up', () => {
    expect(new Set(causesOf(NIGHTS.light))).toEqual(new Set(['sun']))
    expect(sunTonight(NIGHTS.light.site, eveningOf(NIGHTS.light), new Date('2026-06-21T19:00:00Z'))).toBe('stays-up')
  })

  it('is the Sun, and then the bright sky, through a white night', () => {
    expect(new Set(causesOf(NIGHTS.white))).toEqual(new Set(['sun', 'bright']))
    expect(sunTonight(NIGHTS.white.site, eveningOf(NIGHTS.white), new Date('2026-06-05T20:30:00Z'))).toBe('sets')
  })

  it('is nothing at any hour of the dark polar night, and never the Sun in a polar twilight', () => {
    expect(new Set(causesOf(NIGHTS.dark))).toEqual(new Set([null]))
    const twilight = causesOf(NIGHTS.twilight)
    expect(twilight).toContain('bright')
    expect(twilight).toContain(null)
    expect(twilight).not.toContain('sun')
    expect(sunTonight(NIGHTS.dark.site, eveningOf(NIGHTS.dark), new Date('2026-12-21T17:00:00Z'))).toBe('stays-down')
  })

  it('is the place where walls leave no two stars', () => {
    const horizon = [0, 120, 240].map((azimuthDeg) => ({ azimuthDeg, altitudeDeg: 74, name: 'wall' }))
    const walled = { ...NIGHTS.dark, site: { ...NIGHTS.dark.site, horizon } }
    expect(causesOf(walled)).toContain('place')
    expect(causesOf(walled)).not.toContain('bright')
  })
})
