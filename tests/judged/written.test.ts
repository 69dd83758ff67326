import { describe, expect, it } from 'vitest'
import { OUTREACH } from '../support/evenings.ts'
import { JUDGED_NIGHTS } from './nights/index.ts'

const keys = new Set(OUTREACH.map(({ key }) => key))

describe.each(JUDGED_NIGHTS.map((judged) => [judged.title, judged] as const))(
  'what was written for: %s',
  (_title, judged) => {
    const { night, written } = judged

    it('speaks of stations of the row and of things on the list, in order and within the public hours', () => {
      expect(written.length).toBeGreaterThan(0)
      const stations = night.stations.map(({ name }) => name)
      const sinceOpening = (time: string) => (minutes(time) - minutes(night.opens) + 1440) % 1440
      for (const { station, spans } of written) {
        expect(stations).toContain(station)
        let last = 0
        for (const [from, to, showpieces, why] of spans) {
          expect(sinceOpening(from)).toBeGreaterThanOrEqual(last)
          expect(sinceOpening(to)).toBeGreaterThan(sinceOpening(from))
          last = sinceOpening(to)
          expect(showpieces.filter((key) => !keys.has(key))).toEqual([])
          expect(why.length).toBeGreaterThan(10)
        }
        expect(last).toBeLessThanOrEqual(sinceOpening(night.closes))
      }
    })
  },
)

const minutes = (time: string): number => {
  const [hour = 0, minute = 0] = time.split(':').map(Number)
  return hour * 60 + minute
}

it('has both hemispheres, town and dark, one to six telescopes, with and without a Moon, a class and a night that never gets dark', () => {
  const latitudes = JUDGED_NIGHTS.map(({ site }) => site.latitudeDeg)
  expect(latitudes.filter((latitude) => latitude < -30).length).toBeGreaterThanOrEqual(3)
  expect(latitudes.filter((latitude) => latitude > 55).length).toBeGreaterThanOrEqual(1)
  expect(JUDGED_NIGHTS.filter(({ site }) => site.skyMag > 20.5).length).toBeGreaterThanOrEqual(3)
  const rows = JUDGED_NIGHTS.map(({ night }) => night.stations.length)
  expect([Math.min(...rows), Math.max(...rows)]).toEqual([1, 6])
  expect(JUDGED_NIGHTS).toHaveLength(12)
})
