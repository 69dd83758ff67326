import { expect, it, vi } from 'vitest'
import { bodyLook } from '../../server/sky/body.ts'
import { constellationOf } from '../../server/sky/constellation.ts'
import { altitudeCrossingAt, instantOf } from '../../server/sky/engine.ts'
import { skyEvening } from '../../server/sky/evening.ts'

const HERE = { latitudeDeg: 48, longitudeDeg: 11, heightM: 0 }
const NIGHT = new Date('2026-04-10T20:00:00Z')

it('answers a bad instant or place with an Error that names it, and prints nothing', () => {
  const trace = vi.spyOn(console, 'trace').mockImplementation(() => {})
  expect(() => instantOf(new Date(Number.NaN))).toThrow(/instant/)
  expect(() => bodyLook('moon', NIGHT, { ...HERE, latitudeDeg: Number.NaN })).toThrow(/latitude/)
  expect(() => skyEvening(NIGHT, { ...HERE, longitudeDeg: Number.POSITIVE_INFINITY })).toThrow(/longitude/)
  expect(() => altitudeCrossingAt('sun', 'up', { fromAt: NIGHT, days: Number.NaN, place: HERE }, 0)).toThrow(/days/)
  expect(trace).not.toHaveBeenCalled()
  trace.mockRestore()
})

it('makes an Error of what the library throws as bare text', () => {
  expect(() =>
    altitudeCrossingAt('sun', 'up', { fromAt: NIGHT, days: 1, place: { ...HERE, latitudeDeg: 91 } }, 0),
  ).toThrow(Error)
})

it('names the constellation around a J2000 direction', () => {
  expect(constellationOf(88.793, 7.407)).toBe('Ori')
  expect(constellationOf(88.793 - 360, 7.407)).toBe('Ori')
  expect(constellationOf(0, 90)).toBe('UMi')
  expect(constellationOf(360, -90)).toBe('Oct')
})
