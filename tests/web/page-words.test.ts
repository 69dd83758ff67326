import { describe, expect, it } from 'vitest'
import { rounded } from '../../server/web/pages/facts.ts'
import { moonText, phaseKey } from '../../server/web/pages/moon.ts'
import { placeText } from '../../server/web/pages/place-text.ts'
import { causeText, fistsText, leaveByText, pointText } from '../../server/web/pages/say.ts'
import { AN_EVENING, ENGLISH } from '../support/page-data.ts'

const ZONE = 'Europe/Berlin'
const at = (text: string): Date => new Date(`2026-11-20T${text}:00Z`)

describe('words of the field', () => {
  it('counts heights in fists', () => {
    expect([0, 0.5, 1, 1.5, 2.5].map((fists) => fistsText(ENGLISH, fists))).toEqual([
      'at the horizon',
      'half a fist up',
      '1 fist up',
      '1½ fists up',
      '2½ fists up',
    ])
  })

  it('names sixteen directions, all different, north and east where they belong', () => {
    const points = Array.from({ length: 16 }, (_, point) => pointText(ENGLISH, point))
    expect(new Set(points).size).toBe(16)
    expect([points[0], points[4], points[8], points[11]]).toEqual(['north', 'east', 'south', 'west-south-west'])
    expect(pointText(ENGLISH, 16)).toBe('north')
  })

  it('says when the plan moves on, and behind it what forces that, by the clocks of the site', () => {
    const leaveBy = { at: at('17:40'), cause: { code: 'skyline', name: 'oak' } } as const
    expect(leaveByText(ENGLISH, { leaveBy, endsAt: at('17:30') }, ZONE)).toBe('until 18:30 (oak at 18:40)')
  })

  it('says nothing of a leave-by for which another quarter hour would be left', () => {
    const leaveBy = { at: at('17:45'), cause: { code: 'high' } } as const
    expect(leaveByText(ENGLISH, { leaveBy, endsAt: at('17:31') }, ZONE)).toBe('until 18:31 (too high at 18:45)')
    expect(leaveByText(ENGLISH, { leaveBy, endsAt: at('17:30') }, ZONE)).toBeNull()
    expect(leaveByText(ENGLISH, { leaveBy: null, endsAt: at('17:30') }, ZONE)).toBeNull()
  })

  it('calls a skyline without a name trees or roofs', () => {
    expect(causeText(ENGLISH, { code: 'skyline', name: '' })).toBe('trees or roofs')
    expect(causeText(ENGLISH, { code: 'low' })).toBe('too low')
  })

  it('writes places in degrees and minutes with the halves of the Earth as words, and carries full minutes over', () => {
    expect(placeText(ENGLISH, { latitudeDeg: 47.4, longitudeDeg: -8.6 })).toBe('47° 24.0′ north, 8° 36.0′ west')
    expect(placeText(ENGLISH, { latitudeDeg: -33.99999, longitudeDeg: 18.5 })).toBe('34° 0.0′ south, 18° 30.0′ east')
  })

  it('rounds distances to two digits that mean something', () => {
    expect([4.2, 437, 7_460, 23_400, 2_537_000].map(rounded)).toEqual([4, 440, 7_500, 23_000, 2_500_000])
  })
})

describe('the Moon in words', () => {
  it('tells a growing half from a shrinking one', () => {
    expect(phaseKey(0.5, true)).toBe('page.moon-first-quarter')
    expect(phaseKey(0.5, false)).toBe('page.moon-last-quarter')
    expect([phaseKey(0.005, true), phaseKey(0.999, false)]).toEqual(['page.moon-new', 'page.moon-full'])
    expect([phaseKey(0.2, true), phaseKey(0.8, false)]).toEqual([
      'page.moon-waxing-crescent',
      'page.moon-waning-gibbous',
    ])
  })

  it('says rise and set in the order in which they come', () => {
    expect(moonText(ENGLISH, AN_EVENING)).toBe('First quarter, half lit (55 % lit): rises at 13:10 and sets at 00:40.')
  })

  it('says so when it neither rises nor sets', () => {
    const still = { ...AN_EVENING, moonriseAt: null, moonsetAt: null }
    expect(moonText(ENGLISH, { ...still, moon: { ...still.moon, altitudeDeg: 20 } })).toContain('up all night')
    expect(moonText(ENGLISH, { ...still, moon: { ...still.moon, altitudeDeg: -20 } })).toContain('not up tonight')
  })
})
