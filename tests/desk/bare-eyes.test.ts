import { describe, expect, it } from 'vitest'
import { bareEyesDesk } from '../../server/desk/bare-eyes.ts'
import type { Night } from '../../server/tours/night.ts'
import { demoNight } from '../support/demo-night.ts'

/** A desk over these nights that counts how often it reckons; the first so many times the list cannot be read. */
function counted(failures = 0) {
  const nights = new Map<string, Night>()
  let reckoned = 0
  const desk = bareEyesDesk({
    findNight: (id) => nights.get(id) ?? demoNight,
    objects: {
      outreach: () => {
        reckoned += 1
        if (reckoned <= failures) throw new Error('The list cannot be read')
        return []
      },
    },
  })
  return { desk, nights, reckoned: () => reckoned }
}

describe('what bare eyes find after a night', () => {
  it('is reckoned once for a night, its site and its date', () => {
    const { desk, nights, reckoned } = counted()
    const found = desk('one')
    expect(desk('one')).toBe(found)
    nights.set('one', { ...demoNight, title: 'Another title' })
    expect(desk('one')).toBe(found)
    nights.set('one', { ...demoNight, date: '2027-01-15' })
    expect(desk('one').moons).not.toEqual(found.moons)
    nights.set('one', { ...demoNight, site: { ...demoNight.site, latitudeDeg: -34 } })
    desk('one')
    expect(reckoned()).toBe(3)
  })

  it('is kept for the eight newest', () => {
    const { desk, reckoned } = counted()
    for (let i = 0; i < 9; i += 1) desk(`night-${i}`)
    desk('night-8')
    desk('night-1')
    expect(reckoned()).toBe(9)
    desk('night-0')
    expect(reckoned()).toBe(10)
  })

  it('is reckoned again where it failed', () => {
    const { desk, reckoned } = counted(1)
    expect(() => desk('one')).toThrow('The list cannot be read')
    expect(desk('one').moons.length).toBeGreaterThan(0)
    expect(reckoned()).toBe(2)
  })
})
