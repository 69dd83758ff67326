import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { nightHours } from '../../server/tours/hours.ts'
import type { Mark } from '../../server/tours/mark.ts'
import { nightFacts, type ReportInput } from '../../server/tours/report.ts'
import { cameOf, lacksOf, NO_EDITS, reportEditProblems, volunteerTime } from '../../server/tours/report-edits.ts'
import { heldSpans } from '../../server/tours/report-held.ts'
import { seasonOf } from '../../server/tours/report-season.ts'
import { sumOf, wholeShares } from '../../server/tours/report-shares.ts'
import { A_NIGHT, A_TOUR } from '../support/field-data.ts'
import { markAt, SOME_MARKS } from '../support/report-pages.ts'

const CLOSED = nightHours(A_NIGHT).closesAt
const at = (time: string): Date => new Date(`2026-11-20T${time}:00Z`)
const tell = (marks: readonly Mark[], more: Partial<ReportInput> = {}) =>
  nightFacts({ night: A_NIGHT, stations: A_NIGHT.stations, tours: [A_TOUR], marks, at: CLOSED, ...more })
const shown = (marks: readonly Mark[], more: Partial<ReportInput> = {}) =>
  tell(marks, more).showings.map(({ targetKey, fromAt, toAt, told, by, looks, troubleMin }) => [
    `${targetKey} ${fromAt.toISOString().slice(11, 16)}-${toAt.toISOString().slice(11, 16)}`,
    told,
    by,
    looks,
    troubleMin,
  ])

describe('whole numbers in parts', () => {
  it('add up to the whole, each less than one off its share', () => {
    const parts = fc.array(fc.integer({ min: 0, max: 5000 }), { minLength: 1, maxLength: 20 })
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 100_000 }), parts, (whole, weights) => {
        const shares = wholeShares(whole, weights)
        const all = sumOf(weights)
        expect(sumOf(shares)).toBe(whole)
        for (const [i, share] of shares.entries()) {
          expect(Number.isInteger(share) && share >= 0).toBe(true)
          if (all > 0) expect(Math.abs(share - (whole * (weights[i] ?? 0)) / all)).toBeLessThan(1.000001)
        }
      }),
    )
  })

  it('make the total that a published sum of four places missed: 7,283 and not 7,256', () => {
    const nights = [4688, 927, 772, 896].map((adults, i) => ({
      night: { ...A_NIGHT, id: `night-${i}`, date: `2026-1${i % 3}-0${i + 1}` },
      facts: tell([]),
      edits: { ...NO_EDITS, adults, children: 0 },
    }))
    const season = seasonOf(2026, nights)
    expect(season.came.adults + season.came.children).toBe(7283)
    expect(sumOf(season.visitorsByMonth.map(({ adults, children }) => adults + children))).toBe(7283)
    expect(sumOf(season.nights.map(({ came }) => (came ? came.adults + came.children : 0)))).toBe(7283)
  })

  it('make one sum of looks by thing, station, half hour and hour, whatever was tapped', () => {
    const minutes = fc.integer({ min: 0, max: 175 })
    const taps = fc.array(fc.tuple(minutes, fc.constantFrom('m13', 'saturn', 'moon'), fc.integer({ min: 2, max: 50 })))
    fc.assert(
      fc.property(taps, (told) => {
        const marks = told.flatMap(([minute, targetKey, people], i) => {
          const time = new Date(at('17:30').getTime() + minute * 60_000).toISOString().slice(11, 16)
          return [
            markAt(2 * i + 1, time, 'showing', { targetKey, aim: 'whole' }),
            markAt(2 * i + 2, time, 'timed', { people, seconds: people * 47 }),
          ]
        })
        const facts = tell(marks)
        const season = seasonOf(2026, [{ night: A_NIGHT, facts, edits: NO_EDITS }])
        const sums = [facts.showings, facts.looksByTarget, facts.looksByStation, facts.halfHours, season.looksByHour]
        for (const parts of sums) expect(sumOf(parts.map(({ looks }) => looks))).toBe(facts.looks)
      }),
      { numRuns: 40 },
    )
  })
})

describe('what a night tells', () => {
  it('is the programme where nobody acts, and says so', () => {
    expect(shown([])).toEqual([['m13 17:30-18:00', 'plan', 'planned', 30, 0]])
    expect(shown([], { at: at('17:45') })).toEqual([['m13 17:30-17:45', 'plan', 'planned', 15, 0]])
    expect(tell([], { at: at('17:45') }).isOver).toBe(false)
  })

  it('is what was said where somebody acts: timed at the eyepiece, or by the night’s usual look for what was not planned', () => {
    const off = markAt(1, '18:10', 'showing', { targetKey: 'saturn', aim: 'whole' })
    // Fifty seconds a look, and by hand with seven of fifteen children: 50 + 30 * 0.5 * 15/35.
    const usual = Math.round(((140 / 60) * 3600) / (50 + (30 * 0.5 * 15) / 35))
    expect(shown([off])[1]).toEqual(['saturn 18:10-20:30', 'mark', 'usual', usual, 0])
    expect(shown(SOME_MARKS)).toEqual([
      ['m13 17:30-18:00', 'mark', 'timed', 36, 0],
      ['saturn 18:10-18:40', 'mark', 'timed', 36, 0],
    ])
  })

  it('gives no looks to trouble, nothing to a station that left, and only what was said to a night that was off', () => {
    const trouble = markAt(1, '17:35', 'trouble', { what: 'cloud' })
    const again = markAt(2, '17:45', 'showing', { targetKey: 'm13', aim: 'whole' })
    expect(shown([trouble, again])).toEqual([['m13 17:30-18:00', 'mark', 'planned', 20, 10]])
    expect(shown([markAt(1, '17:40', 'station', { is: 'out' })])[0]?.[0]).toBe('m13 17:30-17:40')
    const off = { night: { ...A_NIGHT, state: 'off' as const } }
    expect(shown([], off)).toEqual([])
    expect(shown([again], off)).toHaveLength(1)
    expect(shown([again, markAt(3, '17:50', 'undo', { markKey: again.key }, null)], off)).toEqual([])
  })

  it('counts people in and out, never fewer than nobody, and the most at once when they first were', () => {
    const { people } = tell([
      markAt(1, '17:25', 'counted', { adults: 5, children: 2 }, null),
      markAt(2, '17:40', 'counted', { adults: -8, children: 1 }, null),
      markAt(3, '17:50', 'counted', { adults: 4, children: 0 }, null),
    ])
    expect(people.came).toEqual({ adults: 9, children: 3 })
    expect(people.left).toEqual({ adults: 5, children: 0 })
    expect(people.stayed).toEqual({ adults: 4, children: 3 })
    expect(people.peak).toEqual({ adults: 5, children: 2, people: 7, at: at('17:25') })
    expect(tell([]).people).toMatchObject({ isCounted: false, peak: null })
  })

  it('estimates visitors from looks divided by looks for each', () => {
    const { estimate } = tell([markAt(1, '17:00', 'counted', { adults: 40, children: 0 }, null)])
    expect(estimate).toMatchObject({
      looks: 30,
      minutes: 30,
      meanPeople: 40,
      stayMin: 75,
      looksPerVisitor: 0.75,
      visitors: 40,
    })
    expect(tell([], { tours: [] }).estimate).toBeNull()
  })

  it('parts the night where another programme took over', () => {
    const second = { ...A_TOUR, id: 'tour-2', version: 2, madeAt: at('17:50'), tookOverAtSeq: null }
    const accepted = markAt(1, '18:20', 'accepted', { tourId: 'tour-2' }, null)
    const spans = heldSpans([A_TOUR, second], [accepted], at('17:00'), at('20:00'))
    expect(spans.map(({ tour, untilAt }) => [tour?.id, untilAt])).toEqual([
      ['tour-1', at('18:20')],
      ['tour-2', at('20:00')],
    ])
  })
})

describe('a thing that is skipped while it is on', () => {
  it('was shown until then where somebody had said that it was on, and not where it was only planned', () => {
    const skip = markAt(9, '17:50', 'skipped', { targetKey: 'm13', why: 'trees' })
    expect(shown([skip])).toEqual([])
    expect(shown([markAt(1, '17:40', 'showing', { targetKey: 'm13', aim: 'whole' }), skip])).toEqual([
      ['m13 17:30-17:50', 'mark', 'planned', 20, 0],
    ])
  })
})

describe('what the host writes', () => {
  it('stands beside the reckoned, and says what is wrong with itself', () => {
    const facts = tell(SOME_MARKS)
    expect(cameOf(facts, NO_EDITS)).toEqual({ adults: 12, children: 7 })
    expect(cameOf(facts, { ...NO_EDITS, adults: 14 })).toEqual({ adults: 14, children: 7 })
    expect(cameOf(tell([]), NO_EDITS)).toBeNull()
    expect(cameOf(tell([]), { ...NO_EDITS, children: 24 })).toBeNull()
    const ran = (ranFrom: string, ranTo: string) => reportEditProblems({ ...NO_EDITS, ranFrom, ranTo }, A_NIGHT)
    expect(ran('18:30', '20:00')).toEqual([])
    expect([ran('20:00', '18:30'), ran('18:30', '09:00')].flat().map(({ key }) => key)).toEqual([
      'problem.report-order',
      'problem.report-order',
    ])
    expect(
      reportEditProblems({ ...NO_EDITS, adults: -1, ranFrom: 'late' }, A_NIGHT)
        .map(({ field }) => field)
        .sort(),
    ).toEqual(['adults', 'ranFrom'])
  })

  it('makes volunteer time of stations, others and set-up, to the minute', () => {
    const edits = { ...NO_EDITS, setUpMin: 60, extraHelpers: 2, ranFrom: '18:30', ranTo: '20:00' }
    expect(volunteerTime(A_NIGHT, tell([]), edits)).toEqual({
      ...{ stations: 1, extraHelpers: 2, openMin: 90, setUpMin: 60 },
      totalMin: 450,
    })
  })

  it('is missed until it is there', () => {
    expect(lacksOf(tell([], { at: at('17:45') }), NO_EDITS)).toEqual([
      'open',
      'acts',
      'gate',
      'timed',
      'seen',
      'improve',
    ])
    expect(lacksOf(tell(SOME_MARKS), { ...NO_EDITS, improve: 'Lamps.' })).toEqual([])
  })
})
