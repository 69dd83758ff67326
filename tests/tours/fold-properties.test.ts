import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { fieldMemo } from '../../server/desk/field-memo.ts'
import { foldField } from '../../server/tours/fold.ts'
import type { Mark, MarkKind } from '../../server/tours/mark.ts'
import type { Stop } from '../../server/tours/tour.ts'
import { demoNight } from '../support/demo-night.ts'
import { A_TOUR } from '../support/field-data.ts'

const STARTS_MS = Date.parse('2026-12-17T17:00:00Z')
const at = (minute: number) => new Date(STARTS_MS + minute * 60_000)
const TARGETS = ['moon', 'm57', 'm35', 'm42']
const STATIONS = demoNight.stations.slice(0, 2).map(({ id }) => id)

const target = fc.constantFrom(...TARGETS)
const aim = fc.constantFrom('whole' as const, 'close' as const)

/** Two stations with stops one after the other, now and then a pause, the same target more than once. */
const programmes = fc
  .array(fc.record({ targetKey: target, aim, pause: fc.constantFrom(0, 0, 15), length: fc.constantFrom(15, 30, 45) }), {
    maxLength: 6,
  })
  .map((rows) => STATIONS.flatMap((stationId) => stopsFrom(stationId, rows)))

function stopsFrom(
  stationId: string,
  rows: readonly { targetKey: string; aim: Stop['aim']; pause: number; length: number }[],
): Stop[] {
  let minute = 0
  return rows.map(({ targetKey, aim, pause, length }) => {
    const startsAt = at(minute + pause)
    minute += pause + length
    const rest = { setups: [], leaveBy: null, chance: 1, view: 1, looks: 10, reasons: [] }
    return { stationId, targetKey, aim, startsAt, endsAt: at(minute), ...rest }
  })
}

const act = fc.oneof(
  fc.record({ kind: fc.constant('showing' as const), payload: fc.record({ targetKey: target, aim }) }),
  fc.record({ kind: fc.constant('shown' as const), payload: fc.record({ targetKey: target }) }),
  fc.record({
    kind: fc.constant('skipped' as const),
    payload: fc.record({ targetKey: target, why: fc.constantFrom('cloud', 'wish') }),
  }),
  fc.record({ kind: fc.constant('trouble' as const), payload: fc.record({ what: fc.constantFrom('help', 'cloud') }) }),
  fc.record({
    kind: fc.constant('counted' as const),
    payload: fc.record({ adults: fc.nat({ max: 9 }), children: fc.nat({ max: 9 }) }),
  }),
  fc.record({ kind: fc.constant('undo' as const), payload: fc.nat({ max: 30 }).map((back) => ({ back })) }),
)
const drafts = fc.record({ act, minute: fc.nat({ max: 170 }), stationId: fc.constantFrom(...STATIONS) })

const keyOf = (seq: number) => `mark-key-${seq}`
const markOf = (seq: number, kind: MarkKind, payload: Mark['payload'], minute: number, stationId: string): Mark => ({
  seq,
  key: keyOf(seq),
  nightId: demoNight.id,
  stationId: kind === 'counted' ? null : stationId,
  kind,
  payload,
  by: 'Adaeze',
  receivedAt: at(minute),
  happenedAt: at(minute),
})

/** Acts in the server's order; an undo names one of those before it, an undo too. */
const marksLists = fc.array(drafts, { maxLength: 14 }).map((rows) =>
  rows.flatMap(({ act: { kind, payload }, minute, stationId }, i): Mark[] => {
    if (kind !== 'undo') return [markOf(i + 1, kind, payload, minute, stationId)]
    return i === 0 ? [] : [markOf(i + 1, kind, { markKey: keyOf(1 + (payload.back % i)) }, minute, stationId)]
  }),
)
const minutes = fc.nat({ max: 200 })
const fold = (stops: readonly Stop[], marks: readonly Mark[], now: Date) =>
  foldField({ night: demoNight, tour: { stops }, marks, at: now })

describe('any acts in the field', () => {
  it('fold to the same state in whatever batches and order they arrive', () => {
    const cuts = fc.array(fc.double({ min: 0, max: 1, noNaN: true, maxExcluded: true }), {
      minLength: 14,
      maxLength: 14,
    })
    fc.assert(
      fc.property(programmes, marksLists, minutes, cuts, cuts, (stops, marks, minute, batchOf, order) => {
        const batches = new Map<number, Mark[]>()
        for (const [i, mark] of marks.entries()) {
          const batch = Math.floor((batchOf[i] ?? 0) * 4)
          batches.set(batch, [...(batches.get(batch) ?? []), mark])
        }
        const arrived = [...batches.entries()]
          .sort(([a], [b]) => (order[a] ?? 0) - (order[b] ?? 0))
          .flatMap(([, batch]) => batch)
        expect(fold(stops, arrived, at(minute))).toEqual(fold(stops, marks, at(minute)))
      }),
    )
  })

  it('are without effect when taken back, and back when the undo is undone', () => {
    fc.assert(
      fc.property(programmes, marksLists, drafts, minutes, (stops, before, { act, minute, stationId }, now) => {
        if (act.kind === 'undo') return
        const mark = markOf(101, act.kind, act.payload, minute, stationId)
        const undo = markOf(102, 'undo', { markKey: keyOf(101) }, 0, stationId)
        const again = markOf(103, 'undo', { markKey: keyOf(102) }, 0, stationId)
        const of = (marks: readonly Mark[]) => ({ ...fold(stops, marks, at(now)), seq: 0 })
        expect(of([...before, mark, undo])).toEqual(of(before))
        expect(of([...before, mark, undo, again])).toEqual(of([...before, mark]))
      }),
    )
  })

  it('leave what is on to last until it says, and what is next to begin when it says', () => {
    fc.assert(
      fc.property(programmes, marksLists, minutes, (stops, marks, minute) => {
        const now = at(minute)
        const known = marks.filter(({ happenedAt }) => happenedAt <= now)
        const stationsAt = (when: Date) => fold(stops, known, when).stations
        for (const [i, station] of stationsAt(now).entries()) {
          const { showing, untilAt, next } = station
          const sinceAt = showing?.sinceAt
          if (untilAt !== null) {
            expect(stationsAt(new Date(untilAt.getTime() - 1000))[i]?.showing?.sinceAt).toEqual(sinceAt)
            expect(stationsAt(untilAt)[i]?.showing?.sinceAt).not.toEqual(sinceAt)
          } else expect(stationsAt(at(900))[i]?.showing?.sinceAt).toEqual(sinceAt)
          if (next === null) continue
          expect(stationsAt(next.atAt)[i]?.showing).toMatchObject({ targetKey: next.targetKey, aim: next.aim })
          expect(next.atAt.getTime()).toBeGreaterThanOrEqual((untilAt ?? now).getTime())
        }
      }),
    )
  })

  it('take one stop at most off the plan with one skip', () => {
    fc.assert(
      fc.property(programmes, target, fc.nat({ max: 170 }), (stops, targetKey, minute) => {
        const skip = markOf(1, 'skipped', { targetKey, why: 'cloud' }, minute, STATIONS[0] ?? '')
        const here = stops.filter(({ stationId, endsAt }) => stationId === STATIONS[0] && endsAt > at(minute))
        const fallen = here.filter((stop) => {
          const lateAt = new Date(Math.max(stop.startsAt.getTime(), at(minute).getTime()) + 1000)
          return fold(stops, [skip], lateAt).stations[0]?.showing === null
        })
        const meant = here.find((stop) => stop.targetKey === targetKey)
        expect(fallen).toEqual(meant === undefined ? [] : [meant])
      }),
    )
  })

  it('are told as the fold tells them, whenever it was asked before, with whatever acts and programme', () => {
    const question = fc.record({ minute: minutes, acts: fc.nat({ max: 14 }), other: fc.boolean() })
    const questions = fc.array(question, { minLength: 2, maxLength: 12 })
    fc.assert(
      fc.property(programmes, programmes, marksLists, questions, (first, second, marks, asked) => {
        const memo = fieldMemo()
        for (const { minute, acts, other } of asked) {
          const tour = other ? { ...A_TOUR, id: 'tour-2', stops: second } : { ...A_TOUR, stops: first }
          const input = { night: demoNight, tour, marks: marks.slice(0, acts), at: at(minute) }
          expect(memo(input)).toEqual(foldField(input))
        }
      }),
    )
  })
})
