import { expect, it } from 'vitest'
import { minutesAfter, seenPlace, treesDeg } from '../support/checker-sky.ts'
import { builtOn, eveningOf, FOR_TELESCOPES } from '../support/evenings.ts'
import { generatedNight } from '../support/generated-nights.ts'

/** Every second thing will do: a leave-by hangs on nothing but its own. */
const objects = FOR_TELESCOPES.filter((_, i) => i % 2 === 0)
const NIGHTS = Number(process.env.NIGHTS ?? 7)
/** A leave-by is given to the minute; so much can a thing move in that. */
const MINUTE_DEG = 0.3

it(`names for every stop of ${NIGHTS} nights the minute at which trees, floor or ceiling are reached`, () => {
  const seen = new Map<string, number>()
  for (let number = 0; number < NIGHTS; number++) {
    const night = generatedNight(number)
    for (const { stationId, targetKey, endsAt, leaveBy } of builtOn(eveningOf(night, objects), 5_000).stops) {
      const object = objects.find(({ key }) => key === targetKey)
      const telescope = night.stations.find(({ id }) => id === stationId)?.telescope
      if (object === undefined || !telescope || leaveBy === null) continue
      const where = `night ${number}, ${targetKey} at ${leaveBy.at.toISOString()}: ${leaveBy.cause.code}`
      const [at, later] = [leaveBy.at, minutesAfter(leaveBy.at, 5)].map((time) => seenPlace(object, time, night))
      if (at === undefined || later === undefined) throw new Error('No place')
      const floorAt = ({ azimuthDeg }: typeof at): number =>
        Math.max(10, telescope.floorDeg, treesDeg(night, azimuthDeg) + 2)
      expect(leaveBy.at.getTime(), where).toBeGreaterThanOrEqual(endsAt.getTime())
      seen.set(leaveBy.cause.code, (seen.get(leaveBy.cause.code) ?? 0) + 1)
      if (leaveBy.cause.code === 'high') {
        expect(at.altitudeDeg, where).toBeLessThan(telescope.ceilingDeg + MINUTE_DEG)
        expect(later.altitudeDeg, where).toBeGreaterThan(telescope.ceilingDeg - MINUTE_DEG)
      }
      if (leaveBy.cause.code === 'skyline' || leaveBy.cause.code === 'low') {
        expect(at.altitudeDeg, where).toBeGreaterThan(floorAt(at) - MINUTE_DEG)
        expect(later.altitudeDeg, where).toBeLessThan(floorAt(later) + MINUTE_DEG)
      }
    }
  }
  console.log('leave-bys checked by cause:', Object.fromEntries(seen))
  expect(seen.get('skyline') ?? 0).toBeGreaterThan(NIGHTS / 2)
})
