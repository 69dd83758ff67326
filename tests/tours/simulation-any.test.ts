import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { seededRandom } from '../../server/sky/random.ts'
import { CEILING_LOOKS_PER_HOUR } from '../../server/tours/line.ts'
import { USUAL_HABITS } from '../../server/tours/simulation-lines.ts'
import { lineReport } from '../../server/tours/simulation-report.ts'
import { summaryOf } from '../../server/tours/simulation-summary.ts'
import { visitorsOf } from '../../server/tours/simulation-visitors.ts'
import '../support/property-runs.ts'
import { play } from '../support/played-line.ts'

const aStop = fc.record({
  targetKey: fc.constantFrom('moon', 'saturn', 'm13', 'm42', 'm45'),
  gapSec: fc.integer({ min: 0, max: 400 }),
  lengthSec: fc.integer({ min: 1, max: 4_000 }),
  adultSec: fc.integer({ min: 36, max: 200 }),
  moreSec: fc.integer({ min: 0, max: 30 }),
  eyepieces: fc.constantFrom(1, 2),
})
const aRow = fc.array(fc.array(aStop, { maxLength: 4 }), { minLength: 1, maxLength: 5 }).map((row) =>
  row.map((stops, s) => {
    let sec = 0
    return {
      stationId: `station-${s}`,
      stops: stops.map(({ gapSec, lengthSec, adultSec, moreSec, ...stop }) => {
        const fromSec = sec + gapSec
        sec = fromSec + lengthSec
        const turn = adultSec * stop.eyepieces
        return { ...stop, fromSec, untilSec: sec, adultSec: turn, childSec: turn + moreSec }
      }),
    }
  }),
)
const aTable = fc
  .array(fc.record({ adults: fc.integer({ min: 0, max: 60 }), children: fc.integer({ min: 0, max: 40 }) }), {
    minLength: 1,
    maxLength: 6,
  })
  .map((rows) => rows.map((row, i) => ({ ...row, fromSec: 1_800 * i, untilSec: 1_800 * (i + 1) })))

describe('any simulated evening', () => {
  it('lets nobody look at two things at once, twice at one, before coming, after going or after the end of a stop', () => {
    fc.assert(
      fc.property(aRow, aTable, fc.integer(), (stations, present, seed) => {
        const visitors = visitorsOf(present, 75, seededRandom(seed))
        const { turns } = play({ stations, visitors, habits: USUAL_HABITS })
        for (const [v, visitor] of visitors.entries()) {
          const own = turns.filter((turn) => turn.visitor === v)
          const seen = own.map(({ station, stop }) => stations[station]?.stops[stop]?.targetKey)
          expect(new Set(seen).size).toBe(seen.length)
          let freeSec = visitor.arrivesSec
          for (const { joinedSec, fromSec, untilSec } of own) {
            expect(joinedSec).toBeGreaterThanOrEqual(freeSec)
            expect(fromSec).toBeGreaterThanOrEqual(joinedSec)
            freeSec = untilSec
          }
          expect(own.length === 0 ? 0 : freeSec).toBeLessThanOrEqual(visitor.leavesSec + 1e-6)
        }
        for (const { station, stop, fromSec, untilSec } of turns) {
          const shown = stations[station]?.stops[stop]
          expect(fromSec).toBeGreaterThanOrEqual(shown?.fromSec ?? Number.NaN)
          expect(untilSec).toBeLessThanOrEqual((shown?.untilSec ?? Number.NaN) + 1e-6)
        }
      }),
      { numRuns: 60 },
    )
  })

  it('never has two at one eyepiece, nor more looks an hour than the ceiling', () => {
    fc.assert(
      fc.property(aRow, aTable, fc.integer(), (stations, present, seed) => {
        const visitors = visitorsOf(present, 75, seededRandom(seed))
        const { turns } = play({ stations, visitors, habits: USUAL_HABITS })
        for (const [s, { stops }] of stations.entries()) {
          const own = turns.filter(({ station }) => station === s)
          for (const [i, turn] of own.entries())
            expect(turn.fromSec).toBeGreaterThanOrEqual((own[i - 1]?.untilSec ?? 0) - 1e-6)
          for (const first of own) {
            const hour = own.filter((turn) => turn.fromSec >= first.fromSec && turn.untilSec <= first.fromSec + 3_600)
            const looks = hour.reduce((sum, { stop }) => sum + (stops[stop]?.eyepieces ?? 0), 0)
            expect(looks).toBeLessThanOrEqual(CEILING_LOOKS_PER_HOUR)
          }
        }
      }),
      { numRuns: 40 },
    )
  })

  it('adds up by station and by target, and each who sees more has seen less', () => {
    fc.assert(
      fc.property(aRow, aTable, fc.integer(), (stations, present, seed) => {
        const evenings = [seed, seed + 1].map((one) =>
          play({ stations, visitors: visitorsOf(present, 75, seededRandom(one)), habits: USUAL_HABITS }),
        )
        const report = lineReport(
          evenings.map((evening) => summaryOf(evening, present)),
          stations,
          present,
        )
        const counted = evenings
          .flatMap(({ turns }) => turns)
          .reduce((sum, { station, stop }) => sum + (stations[station]?.stops[stop]?.eyepieces ?? 0), 0)
        const sum = (rows: readonly { readonly looks: number }[]) => rows.reduce((all, { looks }) => all + looks, 0)
        expect(report.looks).toBeCloseTo(counted / 2, 6)
        expect(sum(report.looksByStation)).toBeCloseTo(report.looks, 6)
        expect(sum(report.looksByTarget)).toBeCloseTo(report.looks, 6)
        expect(sum(report.stops)).toBeCloseTo(report.looks, 6)
        const saw = [report.visitors, ...report.sawAtLeast.map(({ visitors }) => visitors)]
        for (const [i, visitors] of saw.entries()) expect(visitors).toBeLessThanOrEqual(saw[i - 1] ?? visitors)
        expect(report.visitors * (1 - report.sawNothingShare)).toBeCloseTo(saw[1] ?? 0, 6)
      }),
      { numRuns: 40 },
    )
  })
})
