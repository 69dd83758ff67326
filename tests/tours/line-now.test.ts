import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { foldField } from '../../server/tours/fold.ts'
import { HOST_CALLS } from '../../server/tours/host-calls.ts'
import { closeLineAt, looksPerHour, waitMin } from '../../server/tours/line.ts'
import { aboutMin, lineNow } from '../../server/tours/line-now.ts'
import type { Mark } from '../../server/tours/mark.ts'
import { reckonedLine } from '../../server/tours/simulation-reckoned.ts'
import type { Stop } from '../../server/tours/tour.ts'
import { demoNight } from '../support/demo-night.ts'

const OPENS_MS = Date.parse('2026-12-17T17:00:00Z')
const minute = (count: number): Date => new Date(OPENS_MS + count * 60_000)
const CLOSES_MIN = 180

const setup = { tubeId: 'tube', eyepieceId: 'eyepiece', powerX: 50, trueFieldDeg: 1 }
const stop = (stationId: string, from: number, to: number, more: Partial<Stop> = {}): Stop => ({
  stationId,
  targetKey: 'saturn',
  aim: 'whole',
  setups: [setup],
  startsAt: minute(from),
  endsAt: minute(to),
  leaveBy: null,
  chance: 1,
  view: 1,
  looks: 50,
  reasons: [],
  ...more,
})
/** The driven reflector shows Saturn, then the Pleiades; the big one shows the Moon to the end. */
const STOPS = [
  stop('station-1', 0, 60),
  stop('station-1', 60, 120, { targetKey: 'm45' }),
  stop('station-2', 0, CLOSES_MIN, { targetKey: 'moon' }),
]

let seq = 0
const mark = (kind: Mark['kind'], at: number, payload: Mark['payload'], stationId: string | null = null): Mark => {
  const key = `mark-key-${++seq}`
  return {
    seq,
    key,
    nightId: demoNight.id,
    stationId,
    kind,
    payload,
    by: 'Ada',
    receivedAt: minute(at),
    happenedAt: minute(at),
  }
}

function reckon(at: number, marks: readonly Mark[] = [], stops: readonly Stop[] = STOPS, night = demoNight) {
  const field = foldField({ night, tour: { stops }, marks, at: minute(at) })
  const now = lineNow({ night, stops, field, marks })
  const at1 = now.stations.find(({ stationId }) => stationId === 'station-1')
  return { ...now, at1, queue: at1?.queue ?? null, call: (name: string) => now.calls.find(({ call }) => call === name) }
}

describe('the people on the field', () => {
  it('are those expected until somebody counts', () => {
    const atGate = { adults: 0, children: 0 }
    expect(reckon(40).people).toEqual({ adults: 22, children: 28, isCounted: false, atGate, countedAt: null })
  })

  it('are those counted, an undo taken back, for an hour after the last count', () => {
    const twice = mark('counted', 21, { adults: 2, children: 2 })
    const marks = [mark('counted', 20, { adults: 5, children: 1 }), twice, mark('undo', 22, { markKey: twice.key })]
    const heads = { adults: 5, children: 1 }
    expect(reckon(40, marks).people).toEqual({ ...heads, isCounted: true, atGate: heads, countedAt: minute(20) })
    expect(reckon(80, marks).people.atGate).toEqual(heads)
    expect(reckon(79, marks).people.isCounted).toBe(true)
    expect(reckon(80, marks).people).toMatchObject({
      adults: 26,
      children: 18,
      isCounted: false,
      countedAt: minute(20),
    })
  })

  it('are not counted by what happens later', () => {
    expect(reckon(40, [mark('counted', 41, { adults: 5, children: 0 })]).people.isCounted).toBe(false)
  })
})

describe('the line at a station', () => {
  it('is as arithmetic says: half of fifty people, 50 seconds each and 15 more for every child among them', () => {
    const { queue } = reckon(40)
    const cycleSec = 50 + 15 * (28 / 50)
    expect(queue).toMatchObject({ inLine: 25, isMeasured: false, leaveAt: minute(60) })
    expect(queue?.cycleSec).toBeCloseTo(cycleSec, 9)
    expect(queue?.looksPerHour).toBeCloseTo(3600 / cycleSec, 9)
    expect(queue?.waitMin).toBeCloseTo((25 * cycleSec) / 60, 9)
    expect(queue?.closeLineAt).toEqual(closeLineAt(minute(60), 25, cycleSec))
  })

  it('is the same as on the page of the programme, in the middle of a stop', () => {
    const [planned] = reckonedLine(demoNight, STOPS).stops
    const { queue } = reckon(30)
    expect(planned).toBeDefined()
    for (const name of ['inLine', 'waitMin', 'looksPerHour'] as const) expect(queue?.[name]).toBe(planned?.[name])
    expect([queue?.cycleSec, queue?.closeLineAt]).toEqual([planned?.turnSec, planned?.closeAt])
  })

  it('moves as fast as people were timed at this station, and nowhere else', () => {
    const marks = [mark('timed', 30, { people: 10, seconds: 450 }, 'station-1')]
    const { queue, at1, stations } = reckon(40, marks)
    expect(queue).toMatchObject({ cycleSec: 45, isMeasured: true, looksPerHour: 80, waitMin: waitMin(25, 45) })
    expect(at1).toMatchObject({ timedAt: minute(30), isTimingDue: false })
    expect(stations.find(({ stationId }) => stationId === 'station-2')).toMatchObject({
      isTimingDue: true,
      timedAt: null,
    })
  })

  it('is to be timed again an hour after the last time', () => {
    const marks = [mark('timed', 10, { people: 10, seconds: 450 }, 'station-1')]
    expect([69, 70].map((at) => reckon(at, marks).at1?.isTimingDue)).toEqual([false, true])
    expect(reckon(150, marks).at1).toMatchObject({ queue: null, isTimingDue: false })
  })

  it('never moves faster than a hundred looks an hour', () => {
    const marks = [mark('timed', 30, { people: 50, seconds: 20 }, 'station-1')]
    expect(reckon(40, marks).queue).toMatchObject({ cycleSec: 36, looksPerHour: 100, waitMin: 15 })
  })

  it('is closed so that its last one looks before the telescope moves: not a second later, and not before it began', () => {
    const closeAt = reckon(35).queue?.closeLineAt.getTime() ?? 0
    const isTime = (ms: number) => reckon((ms - OPENS_MS) / 60_000).queue?.isTimeToClose
    expect([closeAt - 1000, closeAt].map(isTime)).toEqual([false, true])
    const crowd = [mark('counted', 1, { adults: 400, children: 0 })]
    expect(reckon(2, crowd).queue).toMatchObject({ closeLineAt: minute(0), isTimeToClose: true })
  })

  it('stays open while the same thing is shown by another eyepiece', () => {
    const stops = [stop('station-1', 0, 60), stop('station-1', 60, 90, { aim: 'close' })]
    expect(reckon(40, [], stops).queue?.leaveAt).toEqual(minute(90))
    expect(reckon(40, [], [stop('station-1', 0, 60), stop('station-1', 75, 90)]).queue?.leaveAt).toEqual(minute(60))
  })

  it('goes by the sky where that ends a stop, and by the closing hour where nothing follows', () => {
    const leaveBy = { at: minute(52), cause: { code: 'skyline' as const, name: 'oak' } }
    expect(reckon(40, [], [stop('station-1', 0, 60, { leaveBy })]).queue?.leaveAt).toEqual(minute(52))
    const own = [mark('showing', 130, { targetKey: 'm42', aim: 'whole' }, 'station-1')]
    expect(reckon(140, own).queue?.leaveAt).toEqual(minute(CLOSES_MIN))
  })

  it('is none where nobody can look, and its people stand elsewhere', () => {
    const trouble = [mark('trouble', 30, { what: 'cloud' }, 'station-2')]
    expect(reckon(40, trouble).queue?.inLine).toBe(50)
    expect(reckon(40, trouble).stations[2]).toMatchObject({ queue: null, trouble: 'cloud' })
    const out = [mark('station', 30, { is: 'out' }, 'station-1')]
    expect(reckon(40, out).at1).toMatchObject({ queue: null, isOut: true, isTimingDue: false })
    expect(reckon(-10).queue).toBeNull()
  })
})

describe('the host’s four calls', () => {
  const states = (at: number, marks: readonly Mark[] = []) => reckon(at, marks).calls.map(({ state }) => state)

  it('have their times: ten minutes before the end, the first line to be closed, and the end', () => {
    const { call, queue } = reckon(32)
    expect(call('ten')).toEqual({ call: 'ten', at: minute(170), state: 'later', stationIds: [] })
    expect(call('line')).toEqual({ call: 'line', at: queue?.closeLineAt, state: 'next', stationIds: ['station-1'] })
    expect(call('cloud')).toMatchObject({ at: null, state: 'later' })
    expect(call('lights')).toMatchObject({ at: minute(CLOSES_MIN), state: 'later' })
  })

  it('names every line that is to be closed now', () => {
    expect(reckon(50).call('line')).toMatchObject({ state: 'now', stationIds: ['station-1'] })
    expect(reckon(175).call('line')).toMatchObject({ state: 'now', stationIds: ['station-2'] })
  })

  it('are past once made, and the last call waits for half an hour after closing', () => {
    expect(states(-10)).toEqual(['next', 'later', 'later', 'later'])
    expect(states(175)).toEqual(['now', 'now', 'later', 'next'])
    expect(states(181)).toEqual(['past', 'past', 'past', 'now'])
    expect(states(211)).toEqual(['past', 'past', 'past', 'past'])
  })

  it('holds for clouds while any part of the sky is shut', () => {
    const clouds = [mark('clouds', 30, { shut: ['s'], minutes: 15 })]
    expect([40, 46].map((at) => reckon(at, clouds).call('cloud')?.state)).toEqual(['now', 'later'])
  })
})

describe('minutes as people say them', () => {
  it('are none, then fives, then tens', () => {
    expect([0, 1.9, 2, 6, 7.6, 12.4, 31, 33, 44, 46, 61].map(aboutMin)).toEqual([
      0, 0, 5, 5, 10, 10, 30, 30, 40, 50, 60,
    ])
  })
})

describe('whatever was counted and timed', () => {
  const counts = fc.record({
    at: fc.nat({ max: 170 }),
    adults: fc.integer({ min: -40, max: 200 }),
    children: fc.nat(90),
  })
  const timings = fc.record({
    at: fc.nat({ max: 170 }),
    people: fc.integer({ min: 2, max: 50 }),
    seconds: fc.integer({ min: 20, max: 7200 }),
    stationId: fc.constantFrom('station-1', 'station-2'),
  })

  it('no line moves faster than a hundred looks an hour, is closed before its thing is shown, or after it is left', () => {
    fc.assert(
      fc.property(fc.array(counts), fc.array(timings), fc.nat({ max: 179 }), (counted, timed, at) => {
        const marks = [
          ...counted.map(({ at: then, ...payload }) => mark('counted', then, payload)),
          ...timed.map(({ at: then, stationId, ...payload }) => mark('timed', then, payload, stationId)),
        ]
        const { stations, calls, people } = reckon(at, marks)
        expect(Math.min(people.adults, people.children)).toBeGreaterThanOrEqual(0)
        expect(calls.map(({ call }) => call)).toEqual([...HOST_CALLS])
        expect(calls.filter(({ state }) => state === 'next').length).toBeLessThanOrEqual(1)
        for (const { queue, showing } of stations) {
          if (queue === null) continue
          expect(queue.looksPerHour).toBeLessThanOrEqual(100)
          expect(queue.looksPerHour).toBe(looksPerHour(queue.cycleSec))
          expect(queue.waitMin).toBeGreaterThanOrEqual((queue.inLine * 60) / 100 - 1e-9)
          expect(queue.closeLineAt.getTime()).toBeGreaterThanOrEqual(showing?.sinceAt.getTime() ?? Number.NaN)
          expect(queue.closeLineAt.getTime()).toBeLessThanOrEqual(queue.leaveAt.getTime())
        }
      }),
    )
  })
})
