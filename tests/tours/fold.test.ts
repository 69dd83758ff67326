import { describe, expect, it } from 'vitest'
import { foldField } from '../../server/tours/fold.ts'
import type { Mark, MarkKind } from '../../server/tours/mark.ts'
import type { Stop } from '../../server/tours/tour.ts'
import { demoNight } from '../support/demo-night.ts'

const at = (time: string) => new Date(`2026-12-17T${time}:00Z`)

const stop = (targetKey: string, from: string, to: string): Stop => ({
  stationId: 'station-2',
  targetKey,
  aim: 'whole',
  setups: [],
  startsAt: at(from),
  endsAt: at(to),
  leaveBy: null,
  chance: 1,
  view: 1,
  looks: 10,
  reasons: [],
})
const tour = { stops: [stop('m57', '17:00', '18:15'), stop('m35', '18:15', '19:00'), stop('m42', '19:00', '20:00')] }

let seq = 0
const mark = (kind: MarkKind, payload: Mark['payload'], happened: string, key = `mark-${++seq}-key`): Mark => ({
  seq: ++seq,
  key,
  nightId: demoNight.id,
  stationId: kind === 'counted' ? null : 'station-2',
  kind,
  payload,
  by: 'Adaeze',
  receivedAt: at(happened),
  happenedAt: at(happened),
})
const showing = (targetKey: string, happened: string, key?: string) =>
  mark('showing', { targetKey, aim: 'whole' }, happened, key)

function bigAt(time: string, marks: readonly Mark[] = [], programme = tour) {
  const field = foldField({ night: demoNight, tour: programme, marks, at: at(time) })
  const big = field.stations.find(({ stationId }) => stationId === 'station-2')
  if (big === undefined) throw new Error('The big reflector is gone')
  return big
}

describe('a station that nobody marks anything at', () => {
  it('is as planned', () => {
    const big = bigAt('18:20')
    expect(big.showing).toEqual({ targetKey: 'm35', aim: 'whole', sinceAt: at('18:15'), isPlanned: true })
    expect(big.untilAt).toEqual(at('19:00'))
    expect(big.next).toEqual({ targetKey: 'm42', aim: 'whole', atAt: at('19:00') })
    expect(big.shown.map(({ targetKey, toAt }) => [targetKey, toAt])).toEqual([
      ['m57', at('18:15')],
      ['m35', null],
    ])
    expect(big.lastMarkKey).toBeNull()
  })

  it('shows nothing before the first stop and after the last', () => {
    expect(bigAt('16:30').showing).toBeNull()
    expect(bigAt('20:00').showing).toBeNull()
    expect(bigAt('16:30').next?.targetKey).toBe('m57')
  })
})

describe('an operator who shows something else', () => {
  it('closes what was on as shown, and comes back to the plan at the next stop', () => {
    const marks = [showing('m15', '17:40')]
    const now = bigAt('17:50', marks)
    expect(now.showing).toEqual({ targetKey: 'm15', aim: 'whole', sinceAt: at('17:40'), isPlanned: false })
    expect(now.untilAt).toEqual(at('18:15'))
    expect(now.shown[0]).toEqual({ targetKey: 'm57', fromAt: at('17:00'), toAt: at('17:40') })
    expect(bigAt('18:20', marks).showing?.targetKey).toBe('m35')
  })

  it('may begin the next stop early', () => {
    const marks = [showing('m35', '18:05')]
    expect(bigAt('18:10', marks).showing).toMatchObject({ targetKey: 'm35', isPlanned: false })
    expect(bigAt('18:10', marks).next?.targetKey).toBe('m42')
    expect(bigAt('18:30', marks).showing).toEqual({
      targetKey: 'm35',
      aim: 'whole',
      sinceAt: at('18:05'),
      isPlanned: true,
    })
  })

  it('takes it back with an undo, and the undo with another', () => {
    const act = showing('m15', '17:40', 'act-00001')
    const undo = mark('undo', { markKey: 'act-00001' }, '17:41', 'undo-0001')
    expect(bigAt('17:50', [act, undo]).showing?.targetKey).toBe('m57')
    expect(bigAt('17:50', [act, undo]).lastMarkKey).toBeNull()
    const again = mark('undo', { markKey: 'undo-0001' }, '17:42')
    expect(bigAt('17:50', [act, undo, again]).showing?.targetKey).toBe('m15')
    expect(bigAt('17:50', [act, undo, again]).lastMarkKey).toBe('act-00001')
  })

  it('is not overruled by an older act that a phone sends late', () => {
    const newer = showing('m15', '17:45')
    const late = { ...showing('m37', '17:20'), receivedAt: at('17:50') }
    expect(bigAt('17:55', [newer, late]).showing?.targetKey).toBe('m15')
  })
})

describe('marks that close or skip', () => {
  it('leave the station empty after "shown" until the next stop', () => {
    const marks = [mark('shown', { targetKey: 'm57' }, '18:00')]
    expect(bigAt('18:05', marks).showing).toBeNull()
    expect(bigAt('18:05', marks).shown).toEqual([{ targetKey: 'm57', fromAt: at('17:00'), toAt: at('18:00') }])
    expect(bigAt('18:20', marks).showing?.targetKey).toBe('m35')
  })

  it('do not count a skipped target as shown, and pass it by', () => {
    const marks = [mark('skipped', { targetKey: 'm35', why: 'cloud' }, '18:10')]
    const big = bigAt('18:30', marks)
    expect(big.showing).toBeNull()
    expect(big.skipped).toEqual([{ targetKey: 'm35', why: 'cloud' }])
    expect(big.shown.map(({ targetKey }) => targetKey)).toEqual(['m57'])
    expect(big.next?.targetKey).toBe('m42')
  })

  it('hold trouble until something is shown again', () => {
    const trouble = mark('trouble', { what: 'help' }, '17:30')
    expect(bigAt('17:40', [trouble]).trouble).toBe('help')
    expect(bigAt('17:50', [trouble, showing('m57', '17:45')]).trouble).toBeNull()
  })

  it('are passed over when their payload is not what the kind carries', () => {
    expect(bigAt('17:40', [mark('showing', { targetKey: 7 }, '17:30')]).showing?.targetKey).toBe('m57')
  })
})

describe('a target that stands on the plan more than once', () => {
  const twice = {
    stops: [
      stop('m57', '17:00', '18:00'),
      stop('m35', '18:00', '18:30'),
      stop('m57', '18:45', '19:15'),
      stop('m42', '19:30', '20:00'),
    ],
  }
  const twiceAt = (time: string, marks: readonly Mark[] = []) => bigAt(time, marks, twice)

  it('falls once when it is skipped: the stop that runs, or the next one when none runs', () => {
    const running = [mark('skipped', { targetKey: 'm57', why: 'cloud' }, '17:20')]
    expect(twiceAt('17:30', running)).toMatchObject({ showing: null, untilAt: null, next: { targetKey: 'm35' } })
    expect(twiceAt('18:50', running)).toMatchObject({ showing: { targetKey: 'm57' }, untilAt: at('19:15') })
    const ahead = [mark('skipped', { targetKey: 'm57', why: 'trees' }, '18:10')]
    expect(twiceAt('18:20', ahead).next).toEqual({ targetKey: 'm42', aim: 'whole', atAt: at('19:30') })
    expect(twiceAt('18:50', ahead).showing).toBeNull()
    expect(twiceAt('19:40', ahead).skipped).toEqual([{ targetKey: 'm57', why: 'trees' }])
  })

  it('falls with the same stop when two people skip it', () => {
    const both = ['17:20', '17:21'].map((time) => mark('skipped', { targetKey: 'm57', why: 'cloud' }, time))
    expect(twiceAt('18:50', both).showing?.targetKey).toBe('m57')
  })

  it('keeps its later stop when it was shown out of turn and skipped, and loses the next one when begun early', () => {
    const outOfTurn = [showing('m42', '17:10'), mark('skipped', { targetKey: 'm42', why: 'wish' }, '17:20')]
    expect(twiceAt('17:30', outOfTurn).showing).toBeNull()
    expect(twiceAt('19:40', outOfTurn).showing?.targetKey).toBe('m42')
    const early = [showing('m35', '17:50'), mark('skipped', { targetKey: 'm35', why: 'cloud' }, '17:55')]
    expect(twiceAt('18:10', early).showing).toBeNull()
    expect(twiceAt('18:10', early).next).toMatchObject({ targetKey: 'm57', atAt: at('18:45') })
  })

  it('is back when it is shown after all, but a stop that is over stays skipped', () => {
    const skip = mark('skipped', { targetKey: 'm57', why: 'cloud' }, '17:20')
    expect(twiceAt('17:50', [skip, showing('m57', '17:40')])).toMatchObject({ skipped: [], untilAt: at('18:00') })
    expect(twiceAt('18:50', [skip, showing('m57', '18:46')]).skipped).toEqual([{ targetKey: 'm57', why: 'cloud' }])
  })

  it('when shown long before its stop lasts only until the next stop of the station', () => {
    const now = twiceAt('17:20', [showing('m42', '17:10')])
    expect(now.untilAt).toEqual(at('18:00'))
    expect(now.next).toEqual({ targetKey: 'm35', aim: 'whole', atAt: at('18:00') })
  })

  it('when begun just before its stop lasts to the end of it', () => {
    const now = twiceAt('17:55', [showing('m35', '17:50')])
    expect(now.untilAt).toEqual(at('18:30'))
    expect(now.next).toEqual({ targetKey: 'm57', aim: 'whole', atAt: at('18:45') })
  })

  it('is next again after a pause of its own', () => {
    const paused = { stops: [stop('m57', '17:00', '18:00'), stop('m57', '18:30', '19:00')] }
    expect(bigAt('17:30', [], paused).next).toEqual({ targetKey: 'm57', aim: 'whole', atAt: at('18:30') })
  })
})

describe('the field', () => {
  it('adds up the people counted in and carries the newest seq', () => {
    const marks = [
      mark('counted', { adults: 4, children: 6 }, '17:10'),
      mark('counted', { adults: -1, children: 2 }, '17:20'),
    ]
    const field = foldField({ night: demoNight, tour, marks, at: at('17:30') })
    expect([field.adultsIn, field.childrenIn]).toEqual([3, 8])
    expect(field.seq).toBe(seq)
  })

  it('knows nothing yet without a programme and marks', () => {
    const field = foldField({ night: demoNight, tour: null, marks: [], at: at('17:30') })
    expect(field.stations).toHaveLength(4)
    expect(field.stations.every(({ showing: now, next }) => now === null && next === null)).toBe(true)
  })
})
