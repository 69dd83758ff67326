import { describe, expect, it } from 'vitest'
import { advance, beginTour, finishTour } from '../../server/tours/build.ts'
import type { Night } from '../../server/tours/night.ts'
import { type WishDraft, wishOf } from '../../server/tours/wish.ts'
import { conflictsOf } from '../../server/tours/wish-conflicts.ts'
import { wishProblems } from '../../server/tours/wish-problems.ts'
import { demoNight } from '../support/demo-night.ts'
import { eveningOf, FOR_TELESCOPES } from '../support/evenings.ts'

/** What the wishes name, the bodies, and a few of all the others. */
const NAMED = ['m15', 'm27', 'm31', 'm42', 'm45', 'hip95947', 'ngc5139']
const objects = FOR_TELESCOPES.filter(({ key, body }, i) => body !== null || NAMED.includes(key) || i % 6 === 0)

function ready(night: Night) {
  return eveningOf(night, objects)
}

const north = ready(demoNight)
const conflicts = (drafts: readonly WishDraft[], input = north) =>
  conflictsOf({ ...input, wishes: drafts.map((draft, i) => wishOf(draft, `wish-${i}`)) })
const remarks = (...drafts: readonly WishDraft[]) => conflicts(drafts).flatMap((it) => it.remarks)
const codes = (...drafts: readonly WishDraft[]) => remarks(...drafts).map(({ code }) => code)

const pin = (station: number, targetKey: string, startsAt: string, endsAt: string): WishDraft => ({
  kind: 'pin',
  stationId: `station-${station}`,
  targetKey,
  startsAt,
  endsAt,
})

describe('wishes that contradict each other', () => {
  it('are two things at one station at once, and not one after the other', () => {
    const [first, second] = [pin(0, 'moon', '18:00', '19:00'), pin(0, 'saturn', '18:45', '20:00')]
    expect(conflicts([first, second])).toEqual([
      {
        wishId: 'wish-1',
        remarks: [
          {
            code: 'wish.two-pins',
            values: { from: '18:45', to: '19:00', station: 'Low refractor', target: 'Saturn', other: 'Moon' },
          },
        ],
      },
    ])
    expect(codes(first, pin(0, 'saturn', '19:00', '20:00'))).toEqual([])
  })

  it('are a thing at more telescopes than may show it at once', () => {
    const wished = [0, 1, 2].map((station) => pin(station, 'moon', '18:30', '19:00'))
    expect(remarks(...wished)).toEqual([
      { code: 'wish.too-many', values: { target: 'Moon', at: '18:30', count: 3, atOnce: 2 } },
    ])
    expect(codes(...wished.slice(1))).toEqual([])
    expect(codes(pin(1, 'm45', '19:00', '20:00'), pin(3, 'm45', '19:30', '20:30'))).toEqual(['wish.too-many-one'])
  })

  it('are a thing that is barred and pinned, or barred and asked for, whichever came first', () => {
    const bar: WishDraft = { kind: 'bar', targetKey: 'saturn' }
    expect(codes(bar, pin(1, 'saturn', '18:00', '19:00'))).toEqual(['wish.barred-pinned'])
    expect(codes(pin(1, 'saturn', '18:00', '19:00'), bar)).toEqual(['wish.barred-pinned'])
    expect(codes({ kind: 'ask', targetKey: 'saturn' }, bar)).toEqual(['wish.barred-asked'])
    const elsewhere = { ...bar, stationId: 'station-0' }
    expect(codes(elsewhere, pin(1, 'saturn', '18:00', '19:00'), { kind: 'ask', targetKey: 'saturn' })).toEqual([])
  })

  it('are two purposes of one station, and no room for what was asked for', () => {
    const only: WishDraft = { kind: 'only', stationId: 'station-0', targetKey: 'moon' }
    expect(codes(only, { kind: 'only', stationId: 'station-0', things: ['planet'] })).toEqual(['wish.two-purposes'])
    const full = [0, 1].map((station) => pin(station, 'moon', '18:00', '21:00'))
    const rest = [pin(2, 'm15', '18:00', '18:15'), pin(3, 'm45', '18:00', '21:00')]
    expect(codes({ kind: 'ask', targetKey: 'hip95947' }, ...full, ...rest)).toEqual([])
    const barred = { kind: 'bar', targetKey: 'hip95947', stationId: 'station-2' } as const
    expect(codes({ kind: 'ask', targetKey: 'hip95947' }, barred, ...full, ...rest)).toEqual(['wish.no-room'])
  })
})

describe('wishes that the sky cannot meet', () => {
  it('name the trees, and from when to when it would do there', () => {
    expect(remarks(pin(2, 'm42', '18:45', '19:15'))).toEqual([
      {
        code: 'wish.pin-skyline',
        values: { target: 'Orion Nebula', station: 'Big reflector', at: '18:45', name: 'oak' },
      },
      { code: 'wish.would-do', values: { station: 'Big reflector', from: '20:00', to: '21:00' } },
    ])
    expect(codes(pin(2, 'm42', '20:00', '21:00'))).toEqual([])
  })

  it('say what stands overhead, and what is not up yet with the hours outside the night', () => {
    expect(codes(pin(1, 'm31', '19:00', '19:30'))[0]).toBe('wish.pin-high')
    const [why, when] = remarks(pin(1, 'jupiter', '18:00', '18:30'))
    expect(why).toMatchObject({ code: 'wish.pin-set' })
    expect(when).toMatchObject({ code: 'wish.would-do-tonight' })
    expect(String(when?.values?.from) > '21:30').toBe(true)
  })

  it('say of a thing asked for why it is never well placed', () => {
    expect(remarks({ kind: 'ask', targetKey: 'jupiter' })).toMatchObject([
      { code: 'wish.ask-set', values: { target: 'Jupiter' } },
      { code: 'wish.would-do-tonight' },
    ])
    expect(codes({ kind: 'ask', targetKey: 'ngc5139' })).toEqual(['wish.ask-set', 'wish.would-not'])
  })

  it('send to another station what this one cannot show at that time', () => {
    expect(remarks(pin(0, 'm27', '18:30', '19:00'))).toMatchObject([
      { code: 'wish.pin-faint', values: { station: 'Low refractor' } },
      { code: 'wish.would-do-at', values: { station: 'Big reflector' } },
    ])
    expect(codes({ kind: 'only', stationId: 'station-0', things: ['comet'] })).toEqual(['wish.purpose-never'])
  })

  it('say that the Sun is up', () => {
    const day = ready({ ...demoNight, date: '2027-05-14', opens: '19:00', closes: '23:00', visitors: [] })
    const found = conflicts([pin(0, 'moon', '19:00', '19:30')], day)
    expect(found[0]?.remarks[0]).toMatchObject({ code: 'wish.pin-sun' })
  })

  it('sleep while their station is not in the row, and ask for a telescope where there is none', () => {
    const without = { ...demoNight, stations: demoNight.stations.slice(1) }
    expect(conflicts([pin(0, 'm42', '18:00', '18:30')], ready(without))).toEqual([])
    const bare = { ...demoNight, stations: demoNight.stations.map((station) => ({ ...station, telescope: null })) }
    expect(conflicts([pin(0, 'moon', '18:00', '18:30')], ready(bare))[0]?.remarks).toEqual([
      { code: 'tour.no-telescope' },
    ])
  })
})

describe('public hours in full daylight', () => {
  it('say when the Sun is down', () => {
    const input = ready({ ...demoNight, date: '2027-06-12', opens: '14:00', closes: '16:00', visitors: [] })
    const work = beginTour({ ...input, seed: 1 })
    advance(work, 10)
    const [notice] = finishTour(work).notices
    expect(notice).toMatchObject({ code: 'tour.daylight', values: { opens: '14:00', closes: '16:00' } })
    expect(String(notice?.values?.from)).toMatch(/^21:[23]/)
  })
})

describe('a wish as it is sent', () => {
  const problems = (draft: unknown) =>
    wishProblems(draft, demoNight, (key) => key === 'moon').map(({ field, key }) => `${field} ${key}`)

  it('says all that its kind needs, and nothing else', () => {
    expect(problems(pin(0, 'moon', '18:00', '19:00'))).toEqual([])
    expect(problems({ kind: 'pin', targetKey: 'moon' })).toEqual([
      'stationId problem.required',
      'startsAt problem.required',
      'endsAt problem.required',
    ])
    expect(problems({ kind: 'ask', targetKey: 'moon', stationId: 'station-0' })).toEqual(['stationId wish.not-of-kind'])
    expect(problems({ kind: 'only', stationId: 'station-0' })).toEqual(['things wish.purpose-unclear'])
    expect(problems({ kind: 'bar', targetKey: 'toast', stationId: 'kitchen' })).toEqual([
      'stationId problem.station-unknown',
      'targetKey problem.object-unknown',
    ])
    expect(problems({ kind: 'hope' })).toEqual(['kind problem.choice'])
  })

  it('goes by quarter hours of the public hours', () => {
    expect(problems(pin(0, 'moon', '18:10', '19:00'))).toEqual(['startsAt wish.no-quarter'])
    expect(problems(pin(0, 'moon', '19:00', '18:30'))).toEqual(['endsAt wish.times-order'])
    expect(problems(pin(0, 'moon', '20:30', '22:00'))).toEqual(['endsAt wish.time-outside'])
  })
})
