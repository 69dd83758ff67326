import { describe, expect, it } from 'vitest'
import { AGAIN_STEPS, advance, finishTour } from '../../server/tours/build.ts'
import type { Mark, MarkKind } from '../../server/tours/mark.ts'
import { targetAt } from '../../server/tours/sky-at.ts'
import { type SkyPart, skyPartOf } from '../../server/tours/sky-part.ts'
import type { Stop } from '../../server/tours/tour.ts'
import { demoNight as night } from '../support/demo-night.ts'
import { beginOn, builtOn, eveningOf } from '../support/evenings.ts'

const evening = eveningOf(night)
const SEED = 1
/** Enough where the question is what may be shown, and not how good it is. */
const FEW_STEPS = 20_000
const built = builtOn(evening, 200_000, { seed: SEED })
const at = (wall: string): Date => new Date(`2026-12-17T${wall}:00+01:00`)
const minutesAfter = (from: Date, minutes: number): Date => new Date(from.getTime() + minutes * 60_000)
const stationId = (place: number): string => night.stations[place]?.id ?? ''
const WEST: readonly SkyPart[] = ['sw', 'w', 'nw']

let seq = 0
function mark(kind: MarkKind, payload: Mark['payload'], happenedAt: Date, station: string | null = null): Mark {
  seq += 1
  const kept = { seq, key: `mark-key-${seq}`, nightId: night.id, by: 'host', receivedAt: happenedAt }
  return { ...kept, stationId: station, kind, payload, happenedAt }
}

function again(
  now: Date,
  marks: readonly Mark[],
  stops: readonly Stop[] = built.stops,
  slices: readonly number[] = [FEW_STEPS],
) {
  const work = beginOn(evening, { seed: SEED, again: { stops, marks, at: now } })
  for (const steps of slices) advance(work, steps)
  return finishTour(work)
}

/** What a programme says for a station at an instant. */
const planned = (stops: readonly Stop[], id: string, when: Date): Stop | undefined =>
  stops.find((stop) => stop.stationId === id && stop.startsAt <= when && when < stop.endsAt)
const thingAt = (stops: readonly Stop[], id: string, when: Date) => planned(stops, id, when)?.targetKey
const partAt = (targetKey: string, when: Date): SkyPart =>
  skyPartOf(targetAt(evening.sky, evening.sky.targetKeys.indexOf(targetKey), when))

/** What people hold on paper of a stop. */
const paper = ({ reasons: _reasons, looks, ...stop }: Stop) => ({ ...stop, looks: Math.round(looks) })

/** Every fifth minute from an instant to the closing, not included. */
function minutesFrom(from: Date): Date[] {
  const count = Math.ceil((at('21:00').getTime() - from.getTime()) / 300_000)
  return Array.from({ length: count }, (_, k) => minutesAfter(from, 5 * k))
}

describe('a programme made again while nothing has happened', () => {
  it('is the one that people hold, at whatever time', () => {
    for (const wall of ['18:00', '18:22', '19:45', '20:50']) {
      const { stops } = again(at(wall), [], built.stops, [AGAIN_STEPS])
      expect(stops.map(paper)).toEqual(built.stops.map(paper))
    }
  })
})

describe('clouds over the west', () => {
  const now = at('18:22')
  const told = mark('clouds', { shut: WEST, minutes: null }, now)
  const after = again(now, [told])

  it('change nothing that has passed, and no stop of the next half hour but one whose target they hide', () => {
    let hidden = 0
    for (const { id } of night.stations) {
      for (const when of minutesFrom(at('18:00')).filter((step) => step < minutesAfter(now, 30))) {
        const before = thingAt(built.stops, id, when)
        if (when >= now && before && WEST.includes(partAt(before, when))) hidden += 1
        else if (when >= now && before && WEST.includes(partAt(before, now))) continue
        else expect(thingAt(after.stops, id, when)).toBe(before)
      }
    }
    expect(hidden).toBeGreaterThan(0)
  })

  it('leave nothing on the programme that stands in them', () => {
    for (const { id } of night.stations) {
      for (const when of minutesFrom(minutesAfter(now, 1))) {
        const target = thingAt(after.stops, id, when)
        if (target) expect(WEST).not.toContain(partAt(target, when))
      }
    }
  })

  it('send a telescope on at once, and say what the new thing stands in for', () => {
    const big = after.stops.filter(({ stationId: id }) => id === stationId(2))
    expect(big.map(({ targetKey }) => targetKey)[0]).toBe('m57')
    expect(big[0]?.endsAt).toEqual(now)
    expect(big[1]?.startsAt).toEqual(now)
    expect(big[1]?.reasons[0]).toEqual({ code: 'tour.instead-of', values: { name: 'Ring Nebula' } })
  })

  it('are gone again when they were said to be, or when the host says so', () => {
    const anHour = again(now, [mark('clouds', { shut: WEST, minutes: 60 }, now)])
    const late = (stops: readonly Stop[]) => night.stations.map(({ id }) => thingAt(stops, id, at('20:35')))
    expect(late(anHour.stops)).toEqual(late(built.stops))
    const cleared = again(at('18:24'), [told, mark('clouds', { shut: [], minutes: null }, at('18:23'))])
    expect(cleared.stops).toEqual(again(at('18:24'), []).stops)
  })

  it('come out the same however the work is sliced', () => {
    expect(again(now, [told], built.stops, [1000, FEW_STEPS - 1000])).toEqual(after)
  })
})

describe('a station', () => {
  const now = at('18:47')

  it('that leaves the row shows nothing more, and comes back when it is in again', () => {
    const out = mark('station', { is: 'out' }, now, stationId(2))
    const without = again(now, [out])
    expect(without.stops.filter(({ stationId: id, endsAt }) => id === stationId(2) && endsAt > now)).toEqual([])
    const later = at('19:20')
    const back = again(later, [out, mark('station', { is: 'in' }, at('19:19'), stationId(2))], without.stops)
    const its = back.stops.filter(({ stationId: id }) => id === stationId(2))
    expect(its[0]).toMatchObject({ targetKey: 'm57', endsAt: now })
    expect(its[1]?.startsAt).toEqual(later)
  })

  it('whose operator shows something else is left with it, as a fact of the programme, and the row is told', () => {
    const since = at('18:42')
    const { stops } = again(now, [mark('showing', { targetKey: 'm13', aim: 'whole' }, since, stationId(3))])
    const its = stops.filter(({ stationId: id }) => id === stationId(3))
    expect(its[0]).toMatchObject({ targetKey: 'hip95947', endsAt: since })
    expect(its[1]).toMatchObject({ targetKey: 'm13', startsAt: since, endsAt: at('19:00') })
    const planned = built.stops.filter(({ stationId: id, startsAt }) => id === stationId(3) && startsAt >= at('19:00'))
    expect(its.slice(2).map(paper)).toEqual(planned.map(paper))
  })

  it('whose operator doubles a neighbour makes the rule give way aloud, and is not talked out of it', () => {
    const { stops, notices } = again(now, [mark('showing', { targetKey: 'm57', aim: 'whole' }, now, stationId(3))])
    expect(thingAt(stops, stationId(3), at('18:50'))).toBe('m57')
    expect(notices.map(({ code }) => code)).toContain('rule.at-once')
  })

  it('that skipped its target gets another one at once', () => {
    const skipped = mark('skipped', { targetKey: 'm57', why: 'trouble' }, at('18:45'), stationId(2))
    const { stops } = again(now, [skipped])
    const next = stops.find(({ stationId: id, startsAt }) => id === stationId(2) && startsAt >= at('18:45'))
    expect(next?.startsAt).toEqual(now)
  })
})

describe('the measured line', () => {
  const now = at('19:01')
  const untold = again(now, [])

  it('counts the looks of a telescope where ten people were timed', () => {
    const slow = again(now, [mark('timed', { people: 10, seconds: 3600 }, now, stationId(0))])
    const looks = (stops: readonly Stop[]) => stops.find(({ stationId: id }) => id === stationId(0))?.looks ?? 0
    // Ten an hour from now on: two hours cannot give more than twenty.
    const before = (15 * 4 * 60) / 60
    expect(looks(slow.stops)).toBeLessThan(looks(untold.stops) - 5)
    expect(looks(slow.stops)).toBeLessThanOrEqual(before + 20)
  })

  it('needs fewer changes where few have come, and says less is gained', () => {
    const few = again(now, [mark('counted', { adults: 8, children: 2 }, now)])
    expect(few.value).toBeLessThan(untold.value)
    const stale = again(now, [mark('counted', { adults: 8, children: 2 }, at('17:30'))])
    expect(stale.value).toBe(untold.value)
  })
})

it('never lets an error of the clock or of a phone into the past: marks of later are left out', () => {
  const now = at('18:22')
  const later = mark('clouds', { shut: WEST, minutes: null }, at('18:40'))
  expect(again(now, [later])).toEqual(again(now, []))
})
