import { describe, expect, it } from 'vitest'
import { advance, advanceProof, beginProof, finishTour, limitOf } from '../../server/tours/build.ts'
import { instantOf, nightHours } from '../../server/tours/hours.ts'
import type { Stop } from '../../server/tours/tour.ts'
import { type Wish, type WishDraft, wishOf } from '../../server/tours/wish.ts'
import { lossOf } from '../../server/tours/wish-cost.ts'
import { stopWishes } from '../../server/tours/wish-stops.ts'
import { breachesOf } from '../support/checker.ts'
import { demoNight } from '../support/demo-night.ts'
import { beginOn, eveningOf, FOR_TELESCOPES } from '../support/evenings.ts'

const STEPS = 60_000
/** The things that people come for, what the wishes name, and a few of all the others. */
const objects = FOR_TELESCOPES.filter(({ key, appeal }, i) => appeal >= 0.6 || key === 'm29' || i % 4 === 0)
const input = eveningOf(demoNight, objects)
const { opensAt, closesAt } = nightHours(demoNight)

function build(...drafts: readonly WishDraft[]) {
  const work = beginOn(input, { seed: 1, wishes: drafts.map((draft, i) => wishOf(draft, `wish-${i}`)) })
  advance(work, STEPS)
  return { ...finishTour(work), score: work.search.bestScore }
}

const free = build()
const at = (hour: string): Date => instantOf(demoNight, hour)
const shownAt = (stops: readonly Stop[], station: string, time: string): Stop | undefined =>
  stops.find(({ stationId, startsAt, endsAt }) => stationId === station && startsAt <= at(time) && at(time) < endsAt)
const nameOf = (key: string) => objects.find((object) => object.key === key)?.name
const kindOf = (key: string) => objects.find((object) => object.key === key)?.kind
const breaches = ({ stops }: { stops: readonly Stop[] }) =>
  breachesOf({ night: demoNight, objects, stops, opensAt, closesAt })

describe('a programme built around a wish', () => {
  it('shows a pinned thing at its station from the first minute to the last, and keeps every rule', () => {
    expect(shownAt(free.stops, 'station-2', '18:30')?.targetKey).not.toBe('ngc869')
    const built = build({
      kind: 'pin',
      stationId: 'station-2',
      targetKey: 'ngc869',
      startsAt: '18:30',
      endsAt: '19:15',
    })
    for (const time of ['18:30', '18:50', '19:14']) {
      const stop = shownAt(built.stops, 'station-2', time)
      expect(stop?.targetKey).toBe('ngc869')
      expect(stop?.reasons[0]).toEqual({ code: 'tour.wished' })
    }
    expect(breaches(built)).toEqual([])
  })

  it('keeps the aim of a pin', () => {
    const pin = { kind: 'pin', stationId: 'station-1', targetKey: 'moon', startsAt: '19:00', endsAt: '20:00' } as const
    expect(shownAt(build({ ...pin, aim: 'close' }).stops, 'station-1', '19:30')).toMatchObject({ aim: 'close' })
    expect(shownAt(build({ ...pin, aim: 'whole' }).stops, 'station-1', '19:30')).toMatchObject({ aim: 'whole' })
  })

  it('never shows a barred thing, nor counts on it where a rule speaks of the best or of the Moon', () => {
    const built = build({ kind: 'bar', targetKey: 'moon' })
    expect(free.stops.map(({ targetKey }) => targetKey)).toContain('moon')
    expect(built.stops.map(({ targetKey }) => targetKey)).not.toContain('moon')
    expect(built.spares.map(({ targetKey }) => targetKey)).not.toContain('moon')
    expect(built.notices.map(({ code }) => code)).not.toContain('rule.moon-always')
    expect(breaches(built).filter((said) => !said.startsWith('no Moon'))).toEqual([])
  })

  it('bars a thing at one station, or there for a time alone', () => {
    const there = build({ kind: 'bar', stationId: 'station-1', targetKey: 'saturn' })
    expect(there.stops.filter(({ stationId }) => stationId === 'station-1').map((it) => it.targetKey)).not.toContain(
      'saturn',
    )
    const first = build({
      kind: 'bar',
      stationId: 'station-1',
      targetKey: 'saturn',
      startsAt: '18:00',
      endsAt: '18:45',
    })
    expect(shownAt(first.stops, 'station-1', '18:30')?.targetKey).not.toBe('saturn')
    expect(breaches(there)).toEqual([])
    expect(breaches(first)).toEqual([])
  })

  it('finds half an hour for a thing that was asked for and that nobody would show', () => {
    expect(free.stops.map(({ targetKey }) => targetKey)).not.toContain('m29')
    const built = build({ kind: 'ask', targetKey: 'm29' })
    const shown = built.stops.filter(({ targetKey }) => targetKey === 'm29')
    expect(shown.length).toBeGreaterThan(0)
    expect(+(shown[0]?.endsAt ?? 0) - +(shown[0]?.startsAt ?? 0)).toBeGreaterThanOrEqual(1_800_000)
    expect(built.notices).toEqual([])
    expect(breaches(built)).toEqual([])
  })

  it('keeps a station to its kinds of things while any can be shown, and its spares to anything', () => {
    const built = build({ kind: 'only', stationId: 'station-2', things: ['moon', 'planet'] })
    const kinds = built.stops.filter(({ stationId }) => stationId === 'station-2').map((it) => kindOf(it.targetKey))
    expect(kinds.length).toBeGreaterThan(0)
    for (const kind of kinds) expect(['moon', 'planet']).toContain(kind)
    const spares = built.spares.filter(({ stationId }) => stationId === 'station-2').map((it) => kindOf(it.targetKey))
    expect(spares.some((kind) => kind !== 'moon' && kind !== 'planet')).toBe(true)
  })

  it('keeps one thing on all night where that is wished, and something else while it is not up', () => {
    const built = build({ kind: 'only', stationId: 'station-2', targetKey: 'm42' })
    expect(shownAt(built.stops, 'station-2', '20:55')?.targetKey).toBe('m42')
    expect(shownAt(built.stops, 'station-2', '18:05')?.targetKey).toEqual(expect.any(String))
    expect(breaches(built)).toEqual([])
  })
})

describe('a limit proved around wishes', () => {
  it('is never below the programme that was found, nor above the one without wishes by more than chance', () => {
    const wishes = [
      { kind: 'ask', targetKey: 'm29' },
      { kind: 'bar', targetKey: 'saturn' },
      { kind: 'pin', stationId: 'station-2', targetKey: 'ngc869', startsAt: '18:30', endsAt: '19:15' },
    ] as const
    const work = beginOn(input, { seed: 1, wishes: wishes.map((draft, i) => wishOf(draft, `wish-${i}`)) })
    advance(work, STEPS)
    const proof = beginProof(work)
    advanceProof(work, proof, 60)
    const { value } = finishTour(work)
    expect(limitOf(work, proof)).toBeGreaterThanOrEqual(value)
    expect(limitOf(work, proof)).toBeLessThan(free.value * 1.1)
  })
})

describe('a thing that was asked for', () => {
  it('is named when other wishes leave it no half hour', () => {
    const moon = [0, 1, 2, 3].map((station) => ({
      kind: 'pin' as const,
      stationId: `station-${station}`,
      targetKey: ['moon', 'saturn', 'm15', 'm45'][station] ?? '',
      startsAt: '18:00',
      endsAt: '21:00',
    }))
    const built = build({ kind: 'ask', targetKey: 'm29' }, ...moon)
    expect(built.notices).toContainEqual({ code: 'rule.asked', values: { name: nameOf('m29') } })
  })
})

describe('the hand on one stop', () => {
  const stopAt = (station: string, time: string): Stop => {
    const stop = shownAt(free.stops, station, time)
    if (!stop) throw new Error('No stop there')
    return stop
  }
  const meant = (act: Parameters<typeof stopWishes>[2], stop: Stop, other: Stop | null = null, kept: Wish[] = []) =>
    stopWishes(demoNight, kept, act, stop, other)
  const kept = (wishes: ReturnType<typeof meant>): Wish[] =>
    (wishes?.wishes ?? []).map((matter, i) => ({ ...matter, id: `kept-${i}` }))
  const rebuilt = (wishes: ReturnType<typeof meant>) =>
    build(...kept(wishes).map(({ id: _id, ...wish }) => ({ ...wish, things: [] })))
  const saturn = stopAt('station-1', '18:30')

  it('makes a stop a quarter longer or shorter', () => {
    const isFrom = (stop: Stop | undefined) => stop?.startsAt.getTime()
    const shorter = rebuilt(meant('shorter', saturn))
    const [short] = shorter.stops.filter(
      ({ stationId, targetKey }) => stationId === 'station-1' && targetKey === 'saturn',
    )
    expect(isFrom(short)).toBe(+saturn.startsAt)
    expect(+(short?.endsAt ?? 0)).toBe(+saturn.endsAt - 900_000)
    const longer = rebuilt(meant('longer', saturn))
    expect(shownAt(longer.stops, 'station-1', '18:05')?.targetKey).toBe('saturn')
    expect(+(shownAt(longer.stops, 'station-1', '18:05')?.endsAt ?? 0)).toBeGreaterThanOrEqual(+saturn.endsAt + 900_000)
  })

  it('puts a new length in the place of the one wished before', () => {
    const first = kept(meant('shorter', saturn))
    const again = meant('longer', { ...saturn, endsAt: new Date(+saturn.endsAt - 900_000) }, null, first)
    expect(again?.replaced.map(({ id }) => id)).toEqual(first.map(({ id }) => id))
    const further = meant('shorter', { ...saturn, endsAt: new Date(+saturn.endsAt - 900_000) }, null, first)
    expect(further?.replaced.map(({ kind }) => kind)).toEqual(['pin'])
  })

  it('swaps two stops', () => {
    const pleiades = stopAt('station-3', '20:30')
    const [before, after] = [stopAt('station-0', '20:30'), pleiades]
    const built = rebuilt(meant('swap', { ...before, startsAt: after.startsAt, endsAt: after.endsAt }, after))
    expect(shownAt(built.stops, 'station-0', '20:30')?.targetKey).toBe(after.targetKey)
    expect(shownAt(built.stops, 'station-3', '20:30')?.targetKey).toBe('moon')
  })

  it('cannot make a stop end after the closing, nor have no length', () => {
    expect(meant('longer', stopAt('station-0', '20:30'))).toBeNull()
    expect(meant('shorter', { ...saturn, endsAt: new Date(+saturn.startsAt + 900_000) })).toBeNull()
  })
})

describe('what a wish costs', () => {
  it('names the target that loses most looks', () => {
    const built = build({ kind: 'bar', targetKey: 'saturn' })
    const looks = free.stops.filter(({ targetKey }) => targetKey === 'saturn').reduce((sum, it) => sum + it.looks, 0)
    expect(lossOf(free, built)).toEqual({ targetKey: 'saturn', looks })
  })

  it('is nothing for what the programme shows anyhow', () => {
    const pin = { kind: 'pin', stationId: 'station-0', targetKey: 'moon', startsAt: '18:00', endsAt: '21:00' } as const
    expect(lossOf(free, build(pin))).toBeNull()
  })

  it('is nothing where the two differ by chance alone', () => {
    expect(lossOf(free, { ...free, stops: free.stops.slice(1) })).toBeNull()
  })
})
