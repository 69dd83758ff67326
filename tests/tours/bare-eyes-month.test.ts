import { describe, expect, it } from 'vitest'
import { bodyLook } from '../../server/sky/body.ts'
import { bareEyesMonth } from '../../server/tours/bare-eyes-month.ts'
import { wallClock } from '../../server/tours/hours.ts'
import { pointAt } from '../../server/tours/pointing.ts'
import { placeOf } from '../../server/tours/site.ts'
import type { ShowObject } from '../../server/tours/target.ts'
import { demoNight, southernNight } from '../support/demo-night.ts'
import { AN_OBJECT } from '../support/field-data.ts'

const shower = (name: string, decDeg: number, peakSunDeg: number, zhr: number): ShowObject => ({
  ...AN_OBJECT,
  key: name,
  name,
  kind: 'meteor-shower',
  decDeg,
  shower: { peakSunDeg, fromSunDeg: peakSunDeg - 10, toSunDeg: peakSunDeg + 10, zhr, speedKmS: 40 },
})
const sight = (name: string, raDeg: number, decDeg: number): ShowObject => ({
  ...AN_OBJECT,
  key: name,
  name,
  kind: 'bare-eye',
  raDeg,
  decDeg,
})
/** Peaks about 3 and 4 January, 22 December, and in summer. */
const SHOWERS = [
  shower('quadrantids', 49, 283.15, 80),
  shower('ursids', 76, 270.7, 10),
  shower('perseids', 58, 140, 100),
]

describe('what bare eyes find in four weeks', () => {
  it('finds the planets where the sky has them at that hour, and names none that is down', () => {
    for (const { site, date } of [demoNight, southernNight]) {
      const { planets } = bareEyesMonth(site, date, [])
      expect(planets.length).toBeGreaterThan(0)
      for (const { key, at, point } of planets) {
        const look = bodyLook(key, at, placeOf(site))
        expect(look.altitudeDeg, key).toBeGreaterThan(7)
        expect(point, key).toBe(pointAt(look.azimuthDeg))
        expect(bodyLook('sun', at, placeOf(site)).altitudeDeg, key).toBeLessThan(0)
      }
    }
  })

  it('says of Saturn that it is there now and of Jupiter that it comes in January', () => {
    const { planets } = bareEyesMonth(demoNight.site, demoNight.date, [])
    expect(planets.map(({ key, isNow }) => [key, isNow])).toEqual([
      ['jupiter', false],
      ['saturn', true],
    ])
  })

  it('lists showers that peak in these weeks and rise there, with no more meteors than their radiant allows', () => {
    const { showers } = bareEyesMonth(demoNight.site, demoNight.date, SHOWERS)
    expect(showers.map(({ object }) => object.name)).toEqual(['quadrantids', 'ursids'])
    expect(showers[0]?.peakAt.toISOString().slice(0, 8)).toBe('2027-01-')
    expect(showers[1]?.mostPerHour).toBeCloseTo(10 * Math.sin((61.4 * Math.PI) / 180), 6)
    expect(bareEyesMonth(southernNight.site, demoNight.date, SHOWERS).showers).toEqual([])
  })

  it('lists sights that are well placed in the evenings of the month, at that latitude', () => {
    const sights = [sight('heart', 266.4, -29), sight('crux', 191, -63), sight('auriga', 79, 46)]
    const names = (night: typeof demoNight) =>
      bareEyesMonth(night.site, night.date, sights).sights.map((one) => one.name)
    expect(names(demoNight)).toEqual(['auriga'])
    expect(names(southernNight)).toEqual(['heart', 'crux'])
  })

  it('looks by the clock in a polar night, when the Sun neither sets nor rises', () => {
    const site = { ...demoNight.site, latitudeDeg: 74.7, longitudeDeg: 18.9, zone: 'Europe/Oslo' }
    const { sun, planets } = bareEyesMonth(site, '2026-12-01', [])
    expect(sun).toBe('stays-down')
    expect(planets.map(({ key }) => key)).toContain('saturn')
    for (const { key, at } of planets) {
      expect(bodyLook(key, at, placeOf(site)).altitudeDeg, key).toBeGreaterThan(7)
      expect(['18:00', '19:00', '20:00', '21:00', '22:00'], key).toContain(wallClock(at, site.zone))
    }
    expect(bareEyesMonth(demoNight.site, demoNight.date, []).sun).toBe('sets')
  })

  it('has no evening in a polar summer, and still the Moon', () => {
    const site = { ...demoNight.site, latitudeDeg: 69.6, longitudeDeg: 18.9, zone: 'Europe/Oslo' }
    const month = bareEyesMonth(site, '2027-06-21', [])
    expect(month.sun).toBe('stays-up')
    expect(month.planets).toEqual([])
    expect(month.moons).toHaveLength(4)
  })
})
