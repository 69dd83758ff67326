import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { changesOf, countOfChanges, firstChangeAt } from '../../server/tours/changes.ts'
import type { Stop } from '../../server/tours/tour.ts'
import { A_TOUR } from '../support/field-data.ts'

const at = (text: string): Date => new Date(`2026-11-20T${text}:00Z`)
const [ANY] = A_TOUR.stops
if (!ANY) throw new Error('The programme of the tests has a stop')
const stop = (targetKey: string, from: string, to: string, more: Partial<Stop> = {}): Stop => ({
  ...ANY,
  targetKey,
  startsAt: at(from),
  endsAt: at(to),
  ...more,
})
const NOW = at('18:20')
const clock = (date: Date) => date.toISOString().slice(11, 16)
const changes = (before: readonly Stop[], after: readonly Stop[]) => changesOf(before, after, NOW)
const spans = (before: readonly Stop[], after: readonly Stop[]) =>
  changes(before, after).flatMap((station) =>
    station.spans.map(
      ({ fromAt, toAt, before: was, after: is, isChanged }) =>
        `${clock(fromAt)}-${clock(toAt)} ${was?.targetKey ?? '–'} ${isChanged ? '→' : '='} ${is?.targetKey ?? '–'}`,
    ),
  )
const fates = (before: readonly Stop[], after: readonly Stop[]) => {
  const [station] = changes(before, after)
  const said = (side: 'before' | 'after') =>
    station?.[side].map(({ stop: { targetKey }, fate }) => `${targetKey} ${fate}`)
  return [said('before'), said('after')]
}

describe('what a new plan changes of an old one', () => {
  it('is nothing where both show the same, and the past does not count', () => {
    const before = [stop('m57', '18:00', '18:15'), stop('m13', '18:15', '19:00')]
    const after = [stop('m31', '18:00', '18:15'), stop('m13', '18:10', '19:00')]
    expect(spans(before, after)).toEqual(['18:20-19:00 m13 = m13'])
    expect(countOfChanges(changes(before, after))).toBe(0)
    expect(firstChangeAt(changes(before, after))).toBeNull()
    expect(changesOf(before, after, at('19:00'))).toEqual([])
  })

  it('is told stretch by stretch, with what was to be shown and what is', () => {
    const before = [stop('m13', '18:00', '19:00'), stop('m15', '19:15', '20:00')]
    const after = [stop('m13', '18:00', '18:45'), stop('m31', '18:45', '19:30')]
    expect(spans(before, after)).toEqual([
      '18:20-18:45 m13 = m13',
      '18:45-19:00 m13 → m31',
      '19:00-19:15 – → m31',
      '19:15-19:30 m15 → m31',
      '19:30-20:00 m15 → –',
    ])
    expect(firstChangeAt(changes(before, after))).toEqual(at('18:45'))
  })

  it('counts as often as a telescope is turned to something else', () => {
    const before = [stop('m13', '18:00', '19:00'), stop('m15', '19:00', '20:00'), stop('m45', '20:00', '21:00')]
    const oneTurn = [stop('m13', '18:00', '18:45'), stop('m31', '18:45', '20:00'), stop('m45', '20:00', '21:00')]
    const twoTurns = [stop('m31', '18:20', '19:00'), stop('m15', '19:00', '20:00'), stop('m42', '20:00', '21:00')]
    expect(countOfChanges(changes(before, oneTurn))).toBe(1)
    expect(countOfChanges(changes(before, twoTurns))).toBe(2)
    expect(countOfChanges(changes(before, []))).toBe(1)
  })

  it('has a word for every stop, a close look being another thing than a whole one', () => {
    expect(fates([stop('m13', '18:00', '19:00')], [stop('m13', '18:00', '18:45')])).toEqual([
      ['m13 shorter'],
      ['m13 shorter'],
    ])
    expect(fates([stop('m13', '18:00', '19:00')], [stop('m13', '18:00', '19:30')])[1]).toEqual(['m13 longer'])
    expect(fates([stop('m13', '19:00', '20:00')], [stop('m13', '18:45', '20:00')])[1]).toEqual(['m13 sooner'])
    expect(fates([stop('m13', '19:00', '20:00')], [stop('m13', '19:15', '20:30')])[1]).toEqual(['m13 later'])
    expect(fates([stop('m13', '18:00', '19:00')], [stop('m13', '19:00', '20:00')])).toEqual([['m13 gone'], ['m13 new']])
    const close = stop('moon', '18:00', '19:00', { aim: 'close' })
    expect(fates([stop('moon', '18:00', '19:00')], [close])).toEqual([['moon gone'], ['moon new']])
  })

  it('keeps stations apart, those that are in one of the plans alone included', () => {
    const other = { stationId: 'station-2' }
    const found = changes([stop('m13', '18:00', '19:00')], [stop('m13', '18:00', '19:00', other)])
    expect(found.map(({ stationId, before, after }) => [stationId, before.length, after.length])).toEqual([
      ['station-1', 1, 0],
      ['station-2', 0, 1],
    ])
  })
})

describe('any two plans', () => {
  const minute = fc.integer({ min: 0, max: 20 })
  /** Stops one after the other, with gaps. */
  const plan = fc
    .array(fc.tuple(fc.constantFrom('m13', 'm15', 'm31'), minute, fc.integer({ min: 1, max: 20 })), { maxLength: 6 })
    .map((parts) => {
      let from = at('18:00').getTime()
      return parts.map(([targetKey, gap, length]) => {
        const startsAt = new Date(from + gap * 60_000)
        from = startsAt.getTime() + length * 60_000
        return { ...ANY, targetKey, startsAt, endsAt: new Date(from) }
      })
    })
  const onAt = (stops: readonly Stop[], when: Date) =>
    stops.find(({ startsAt, endsAt }) => startsAt <= when && when < endsAt)?.targetKey

  it('are told at every minute as they are, without overlaps, and never before the instant of comparing', () => {
    fc.assert(
      fc.property(plan, plan, (before, after) => {
        const told = changes(before, after).flatMap((station) => station.spans)
        const minutes = Array.from({ length: 240 }, (_, i) => new Date(NOW.getTime() + i * 60_000))
        const asTold = minutes.map((when) =>
          told
            .filter(({ fromAt, toAt }) => fromAt <= when && when < toAt)
            .map(({ before: was, after: is, isChanged }) => [was?.targetKey, is?.targetKey, isChanged]),
        )
        const asPlanned = minutes.map((when) => {
          const [was, is] = [onAt(before, when), onAt(after, when)]
          return was || is ? [[was, is, was !== is]] : []
        })
        expect(asTold).toEqual(asPlanned)
        expect(told.every(({ fromAt, toAt }) => fromAt >= NOW && fromAt < toAt)).toBe(true)
      }),
    )
  })

  it('are the same when every word says that it stays, and only then', () => {
    fc.assert(
      fc.property(plan, plan, (before, after) => {
        const found = changes(before, after)
        const words = found.flatMap((station) => [...station.before, ...station.after].map(({ fate }) => fate))
        if (words.every((fate) => fate === 'stays')) expect(countOfChanges(found)).toBe(0)
        expect(
          changes(before, before)
            .flatMap(({ after: all }) => all)
            .every(({ fate }) => fate === 'stays'),
        ).toBe(true)
      }),
    )
  })
})
