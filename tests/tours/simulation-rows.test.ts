import { describe, expect, it } from 'vitest'
import { eveningSky } from '../../server/tours/evening.ts'
import { nightHours } from '../../server/tours/hours.ts'
import { reckonedLine } from '../../server/tours/simulation-reckoned.ts'
import { rowsOf } from '../../server/tours/simulation-rows.ts'
import type { Stop } from '../../server/tours/tour.ts'
import { demoNight } from '../support/demo-night.ts'
import { OUTREACH } from '../support/evenings.ts'

describe('the row of a night', () => {
  const { opensAt } = nightHours(demoNight)
  const objects = OUTREACH.filter(({ key }) => ['moon', 'saturn', 'm45', 'm42'].includes(key))
  const sky = eveningSky(demoNight, objects)
  const minute = (min: number) => new Date(opensAt.getTime() + min * 60_000)
  const setup = { tubeId: 'tube', eyepieceId: 'eyepiece', powerX: 50, trueFieldDeg: 1 }
  const stop = (more: Partial<Stop>): Stop => ({
    stationId: 'station-1',
    targetKey: 'saturn',
    aim: 'whole',
    setups: [setup],
    startsAt: minute(0),
    endsAt: minute(60),
    leaveBy: null,
    chance: 1,
    view: 1,
    looks: 50,
    reasons: [],
    ...more,
  })
  const second = stop({ targetKey: 'm45', startsAt: minute(60), endsAt: minute(120), setups: [setup, setup] })
  const rows = (night = demoNight) => rowsOf({ night, stops: [second, stop({})], sky, objects })

  it('moves a telescope in the first minutes of its next stop, and takes twice as long through two tubes', () => {
    const [before, after] = rows()[1]?.stops ?? []
    const { cycleSec } = demoNight.settings
    expect(before).toMatchObject({ targetKey: 'saturn', fromSec: 0, untilSec: 3_600, adultSec: cycleSec, eyepieces: 1 })
    expect(after).toMatchObject({
      untilSec: 7_200,
      adultSec: 2 * cycleSec,
      childSec: 2 * (cycleSec + 15),
      eyepieces: 2,
    })
    expect(after?.fromSec).toBeGreaterThan(3_660)
    expect(after?.fromSec).toBeLessThan(3_780)
    expect(rows()[0]?.stops).toEqual([])
  })

  it('leaves out the time that a class has', () => {
    const schoolClass = { startsAt: '18:15', endsAt: '18:45', groups: 2 }
    const night = { ...demoNight, settings: { ...demoNight.settings, schoolClass } }
    const spans = rows(night)[1]?.stops.map(({ fromSec, untilSec }) => [fromSec, untilSec])
    expect(spans?.slice(0, 2)).toEqual([
      [0, 900],
      [2_700, 3_600],
    ])
  })

  it('has a line by arithmetic: the people of the middle spread over the telescopes that show something', () => {
    const { stops, looksInStay } = reckonedLine(demoNight, [
      stop({}),
      stop({ stationId: 'station-0', targetKey: 'moon' }),
    ])
    const childShare = 28 / 50
    const turnSec = demoNight.settings.cycleSec + 15 * childShare
    expect(stops[0]).toMatchObject({ inLine: 25, stopMin: 60 })
    expect(stops[0]?.turnSec).toBeCloseTo(turnSec, 9)
    expect(stops[0]?.looksPerHour).toBeCloseTo(3_600 / turnSec, 9)
    expect(stops[0]?.waitMin).toBeCloseTo((25 * turnSec) / 60, 9)
    expect(stops[0]?.closeAt.getTime()).toBeCloseTo(minute(60).getTime() - 25 * turnSec * 1_000, -1)
    expect(looksInStay).toBeCloseTo((2 * (3_600 / turnSec) * (demoNight.settings.stayMin / 60)) / 50, 6)
  })
})
