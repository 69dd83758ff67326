import { expect, it } from 'vitest'
import { skyEvening } from '../../server/sky/evening.ts'

const minutesFrom = (found: Date | null, iso: string): number =>
  Math.abs((found?.getTime() ?? Number.NaN) - Date.parse(iso)) / 60_000

// A local newspaper's sky column for San Mateo, California, 20 May 2023 (Pacific daylight time is UTC - 7 h).
it('finds the dusk that a newspaper printed for San Mateo', () => {
  const sanMateo = { latitudeDeg: 37.563, longitudeDeg: -122.3255, heightM: 14 }
  const evening = skyEvening(new Date('2023-05-20T19:00:00Z'), sanMateo)
  expect(minutesFrom(evening.sunsetAt, '2023-05-20T20:17:00-07:00')).toBeLessThan(2)
  expect(minutesFrom(evening.civilDuskAt, '2023-05-20T20:45:00-07:00')).toBeLessThan(2)
  expect(minutesFrom(evening.nauticalDuskAt, '2023-05-20T21:22:00-07:00')).toBeLessThan(2)
  expect(minutesFrom(evening.astronomicalDuskAt, '2023-05-20T22:02:00-07:00')).toBeLessThan(2)
})
