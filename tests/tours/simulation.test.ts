import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { seededRandom } from '../../server/sky/random.ts'
import { addTo, agenda, takeFrom } from '../../server/tours/simulation-heap.ts'
import { type LineInput, type LineStop, USUAL_HABITS } from '../../server/tours/simulation-lines.ts'
import { shareOf } from '../../server/tours/simulation-report.ts'
import { presentOf, visitorsOf } from '../../server/tours/simulation-visitors.ts'
import { demoNight } from '../support/demo-night.ts'
import '../support/property-runs.ts'
import { play } from '../support/played-line.ts'

const stopsOf = (...ends: readonly (readonly [string, number, number])[]): LineStop[] =>
  ends.map(([targetKey, fromSec, untilSec]) => ({
    targetKey,
    fromSec,
    untilSec,
    adultSec: 50,
    childSec: 65,
    eyepieces: 1,
  }))
const adultsAt = (...seconds: readonly number[]) =>
  seconds.map((arrivesSec) => ({ isChild: false, arrivesSec, leavesSec: 7_200 }))
const oneLine = (
  visitors: LineInput['visitors'],
  ...ends: readonly (readonly [string, number, number])[]
): LineInput => ({
  stations: [{ stationId: 'one', stops: stopsOf(...ends) }],
  visitors,
  habits: USUAL_HABITS,
})

describe('a simulated line', () => {
  it('serves one after the other, in the order of joining', () => {
    const { turns } = play(oneLine(adultsAt(0, 10, 20), ['moon', 0, 3_600]))
    expect(turns.map(({ visitor, fromSec, untilSec }) => [visitor, fromSec, untilSec])).toEqual([
      [0, 0, 50],
      [1, 50, 100],
      [2, 100, 150],
    ])
  })

  it('is closed before the end of a stop for whom would not see any more', () => {
    const evening = play(oneLine(adultsAt(0, 0, 0, 0), ['moon', 0, 120]))
    expect(evening.turns.map(({ visitor }) => visitor)).toEqual([0, 1])
    expect(evening.lines[0]?.[0]?.closedSec).toBe(0)
    expect(play(oneLine(adultsAt(0), ['moon', 0, 120])).lines[0]?.[0]?.closedSec).toBe(70)
  })

  it('loses those who have waited for as long as they will, children sooner', () => {
    const crowd = Array.from({ length: 60 }, (_, i) => ({ isChild: i % 2 === 1, arrivesSec: 0, leavesSec: 7_200 }))
    const evening = play(oneLine(crowd, ['moon', 0, 7_200]))
    const waited = (isChild: boolean) =>
      Math.max(...evening.turns.filter((turn) => crowd[turn.visitor]?.isChild === isChild).map((turn) => turn.fromSec))
    expect(evening.gaveUp).toBe(crowd.length - evening.turns.length)
    expect(evening.gaveUp).toBeGreaterThan(20)
    expect(waited(true)).toBeLessThanOrEqual(USUAL_HABITS.childPatienceSec)
    expect(waited(false)).toBeGreaterThan(USUAL_HABITS.childPatienceSec)
    expect(waited(false)).toBeLessThanOrEqual(USUAL_HABITS.adultPatienceSec)
  })

  it('is waited in anew: patience counts from joining this line and not an earlier one', () => {
    const evening = play(oneLine(adultsAt(0, 0, 0), ['moon', 0, 1_000], ['saturn', 1_300, 2_000]))
    expect(evening.gaveUp).toBe(0)
    expect(evening.turns.map(({ stop }) => stop)).toEqual([0, 0, 0, 1, 1, 1])
    expect(evening.turns[3]?.joinedSec).toBeLessThan(USUAL_HABITS.adultPatienceSec)
  })

  it('forms for the next thing shortly before it is shown, and nobody looks while the telescope is moved', () => {
    const { turns } = play(oneLine(adultsAt(0, 0), ['moon', 0, 600], ['saturn', 780, 1_800]))
    expect(turns.map(({ stop, fromSec }) => [stop, fromSec])).toEqual([
      [0, 0],
      [0, 50],
      [1, 780],
      [1, 830],
    ])
    expect(turns[2]?.joinedSec).toBeLessThan(780)
    expect(turns[2]?.joinedSec).toBeGreaterThanOrEqual(480)
  })

  it('sends people to the shorter line, and along the row to what they have not seen', () => {
    const [moon, saturn] = [stopsOf(['moon', 0, 3_600]), stopsOf(['saturn', 0, 3_600])]
    const stations = [
      { stationId: 'one', stops: moon },
      { stationId: 'two', stops: saturn },
    ]
    const { turns } = play({ stations, visitors: adultsAt(0, 1), habits: USUAL_HABITS })
    expect(turns.map(({ visitor, station, joinedSec }) => [visitor, station, joinedSec])).toEqual([
      [0, 0, 0],
      [1, 1, 21],
      [0, 1, 70],
      [1, 0, 91],
    ])
  })

  it('is the same for the same seed however it is sliced, and another for another', () => {
    const present = presentOf(demoNight)
    const stations = [
      { stationId: 'one', stops: stopsOf(['moon', 0, 9_000]) },
      { stationId: 'two', stops: stopsOf(['m45', 0, 5_000], ['m42', 5_200, 10_800]) },
    ]
    const turnsOf = (seed: number, acts: number) =>
      play({ stations, visitors: visitorsOf(present, 75, seededRandom(seed)), habits: USUAL_HABITS }, acts).turns
    expect(turnsOf(4, 1)).toEqual(turnsOf(4, 5_000))
    expect(turnsOf(4, 100)).not.toEqual(turnsOf(5, 100))
  })
})

describe('what falls due', () => {
  it('comes in the order of time, and of adding at one time', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 9 })), (seconds) => {
        const list = agenda<{ sec: number; number: number }>()
        for (const [number, sec] of seconds.entries()) addTo(list, { sec, number })
        const taken = seconds.map(() => takeFrom(list))
        const wanted = seconds
          .map((sec, number) => ({ sec, number }))
          .sort((a, b) => a.sec - b.sec || a.number - b.number)
        expect(taken).toEqual(wanted)
        expect(takeFrom(list)).toBeUndefined()
      }),
    )
  })
})

describe('the people of an evening', () => {
  const present = presentOf(demoNight)

  it('are as many on the field as the table says, children and adults, in every half hour', () => {
    for (const seed of [1, 2, 3]) {
      const visitors = visitorsOf(present, demoNight.settings.stayMin, seededRandom(seed))
      for (const isChild of [false, true]) {
        for (const row of present) {
          const wanted = isChild ? row.children : row.adults
          const there = visitors
            .filter((visitor) => visitor.isChild === isChild)
            .map(({ arrivesSec, leavesSec }) => Math.min(leavesSec, row.untilSec) - Math.max(arrivesSec, row.fromSec))
            .reduce((sum, sec) => sum + Math.max(0, sec), 0)
          expect(Math.abs(there / (row.untilSec - row.fromSec) - wanted)).toBeLessThanOrEqual(1.5 + 0.05 * wanted)
        }
      }
    }
  })

  it('stay about as long as the night says, and no longer than a fifth more', () => {
    const steady = [{ fromSec: 0, untilSec: 36_000, adults: 50, children: 0 }]
    const stays = visitorsOf(steady, 75, seededRandom(5))
      .filter(({ leavesSec }) => leavesSec < 36_000)
      .map(({ arrivesSec, leavesSec }) => (leavesSec - arrivesSec) / 60)
    expect(Math.max(...stays)).toBeLessThanOrEqual(90)
    expect(Math.min(...stays)).toBeGreaterThanOrEqual(60)
    expect(stays.reduce((sum, stay) => sum + stay, 0) / stays.length).toBeCloseTo(75, -1)
  })
})

describe('the share of sorted values', () => {
  it('is the middle one, the one that one in twenty exceeds, and nothing of nothing', () => {
    const hundred = Array.from({ length: 100 }, (_, i) => i + 1)
    expect([shareOf(hundred, 0.5), shareOf(hundred, 0.95), shareOf([7], 0.5), shareOf([], 0.5)]).toEqual([
      50,
      95,
      7,
      null,
    ])
  })
})
