import { describe, expect, it } from 'vitest'
import type { Mark, MarkKind } from '../../server/tours/mark.ts'
import { currentVersion, hasBegun, waitingVersion } from '../../server/tours/programme.ts'

const AT = new Date('2026-12-17T17:20:00Z')
const version = (number: number, tookOverAtSeq: number | null) => ({
  id: `tour-${number}`,
  version: number,
  tookOverAtSeq,
})
const mark = (seq: number, kind: MarkKind, payload: Mark['payload'] = {}): Mark => ({
  seq,
  key: `mark-key-${seq}`,
  nightId: 'night-1',
  stationId: null,
  kind,
  payload,
  by: 'host',
  receivedAt: AT,
  happenedAt: AT,
})
const accepted = (seq: number, number: number) => mark(seq, 'accepted', { tourId: `tour-${number}` })
const undo = (seq: number, undone: number) => mark(seq, 'undo', { markKey: `mark-key-${undone}` })

describe('the version that the row goes by', () => {
  it('is none before the first', () => {
    expect(currentVersion([], [accepted(1, 1)])).toBeUndefined()
    expect(waitingVersion([], [])).toBeUndefined()
  })

  it('is the newest that was built before the night began', () => {
    expect(currentVersion([version(1, 0), version(2, 0), version(3, 0)], [])?.version).toBe(3)
  })

  it('is an accepted one only until the next is built before the night began', () => {
    expect(currentVersion([version(1, 0), version(2, 0)], [accepted(4, 1)])?.version).toBe(1)
    expect(currentVersion([version(1, 0), version(2, 0), version(3, 4)], [accepted(4, 1)])?.version).toBe(3)
  })

  it('is not one that waits, until that is accepted', () => {
    const versions = [version(1, 0), version(2, null), version(3, null)]
    expect(currentVersion(versions, [])?.version).toBe(1)
    expect(waitingVersion(versions, [])?.version).toBe(3)
    expect(currentVersion(versions, [accepted(9, 3)])?.version).toBe(3)
    expect(waitingVersion(versions, [accepted(9, 3)])).toBeUndefined()
  })

  it('goes by the last acceptance in the order of the laptop, however the marks are handed over', () => {
    const versions = [version(1, 0), version(2, null), version(3, null)]
    expect(currentVersion(versions, [accepted(12, 2), accepted(11, 3)])?.version).toBe(2)
  })

  it('turns back with every undo, and forth again with the undo of an undo', () => {
    const versions = [version(1, 0), version(2, null)]
    const acts = [accepted(5, 2), undo(6, 5), undo(7, 6), undo(8, 7)]
    const held = [1, 2, 3, 4].map((count) => currentVersion(versions, acts.slice(0, count))?.version)
    expect(held).toEqual([2, 1, 2, 1])
    expect(waitingVersion(versions, acts.slice(0, 2))?.version).toBe(2)
  })

  it('is not touched by an acceptance of something that is no version of this night', () => {
    expect(currentVersion([version(1, 0)], [mark(5, 'accepted', { tourId: 'elsewhere' })])?.version).toBe(1)
  })
})

it('drops a version that waits, until that is taken back', () => {
  const dropped = mark(5, 'dropped', { tourId: 'tour-2' })
  const versions = [version(1, 0), version(2, null)]
  expect(waitingVersion(versions, [dropped])).toBeUndefined()
  expect(currentVersion(versions, [dropped])?.version).toBe(1)
  expect(waitingVersion(versions, [dropped, undo(6, 5)])?.version).toBe(2)
})

describe('a night', () => {
  it('has begun once something is shown, and not by counting people or by a tap that was taken back', () => {
    expect(hasBegun(undefined, [mark(1, 'counted'), accepted(2, 1)], AT)).toBe(false)
    expect(hasBegun(undefined, [mark(1, 'showing')], AT)).toBe(true)
    expect(hasBegun(undefined, [mark(1, 'shown')], AT)).toBe(true)
    expect(hasBegun(undefined, [mark(1, 'showing'), undo(2, 1)], AT)).toBe(false)
  })

  it('has begun with the first stop of its programme when nobody acts', () => {
    const stops = [{ startsAt: AT }, { startsAt: new Date(AT.getTime() + 900_000) }]
    expect(hasBegun({ stops }, [], new Date(AT.getTime() - 1))).toBe(false)
    expect(hasBegun({ stops }, [], AT)).toBe(true)
  })
})
