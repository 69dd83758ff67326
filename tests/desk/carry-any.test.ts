import fc from 'fast-check'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { north } from '../../seed-demo/north.ts'
import { seedEvening } from '../../seed-demo/seed.ts'
import type { Desk } from '../../server/desk/desk.ts'
import type { NightFile } from '../../server/tours/night-file.ts'
import { AFTERNOON, freshFolder, openDesk, removeFolder, SLOW_MS, standingClock } from '../support/desk-folder.ts'

const folder = freshFolder()
let desk: Desk
let base: NightFile

beforeAll(async () => {
  desk = await openDesk(folder, { clock: standingClock(AFTERNOON) })
  base = desk.carry.nightFile(seedEvening(desk, north).id)
}, SLOW_MS)
afterAll(async () => {
  await desk.close()
  removeFolder(folder)
})

const AT = '2026-12-17T17:30:00.000Z'
const target = fc.constantFrom('m31', 'm42', 'saturn', 'own-thing')
const act = fc.oneof(
  fc.record({
    kind: fc.constant('showing' as const),
    payload: fc.record({ targetKey: target, aim: fc.constant('whole') }),
  }),
  fc.record({
    kind: fc.constant('seen' as const),
    payload: fc.record({ targetKey: target, who: fc.constant('half') }),
  }),
  fc.record({
    kind: fc.constant('counted' as const),
    payload: fc.record({ adults: fc.integer({ min: -9, max: 9 }), children: fc.constant(1) }),
  }),
  fc.record({
    kind: fc.constant('undo' as const),
    payload: fc.record({ markKey: fc.nat(9).map((place) => `any-mark-${place}`) }),
  }),
)
/** A small night; its ids are the same for all, so that each of them stands for something else here already. */
const anyNight = fc.record({
  title: fc.string({ unit: 'grapheme-ascii', minLength: 1, maxLength: 40 }),
  day: fc.integer({ min: 10, max: 28 }),
  stations: fc.integer({ min: 1, max: 4 }),
  isOut: fc.boolean(),
  acts: fc.array(act, { maxLength: 9 }),
  magnitude: fc.integer({ min: 2, max: 9 }),
})

type AnyNight = typeof anyNight extends fc.Arbitrary<infer Drawn> ? Drawn : never

let nights = 0
function fileOf({ title, day, stations, isOut, acts, magnitude }: AnyNight): NightFile {
  nights += 1
  const ids = base.stations.slice(0, stations).map((station, i) => ({ ...station, id: `s${nights}-${i}` }))
  const draft = {
    name: `Thing ${nights}`,
    kind: 'star' as const,
    raDeg: nights,
    decDeg: 5,
    magnitude,
    appeal: 0.5,
    appealReason: 'x',
  }
  return {
    ...base,
    telescopes: base.telescopes.filter(({ id }) => ids.some(({ telescopeId }) => telescopeId === id)),
    night: { ...base.night, id: 'any-night', title: `${nights} ${title}`, date: `20${30 + nights}-02-${day}` },
    stations: ids.map((station, i) => ({ ...station, isInRow: i === 0 || !isOut })),
    things: [{ key: 'own-thing', isListed: true, draft, before: [] }],
    marks: acts.map(({ kind, payload }, i) => ({
      ...{ seq: i + 1, key: `any-mark-${i}`, kind, payload, by: 'Ada', receivedAt: AT, happenedAt: AT },
      stationId: kind === 'undo' || kind === 'counted' ? null : (ids[0]?.id ?? null),
    })),
  }
}

/** What a file says, with every id named by the place at which it stands first. */
function saying(file: NightFile): unknown {
  const places = new Map<string, string>()
  const known = [...file.things.map(({ key }) => key), file.night.id, ...file.marks.map(({ key }) => key)]
  for (const id of known) places.set(id, `id ${places.size}`)
  const marks = file.marks.map((mark, i) => ({ ...mark, seq: i }))
  return JSON.parse(JSON.stringify({ ...file, marks, savedAt: '' }), (_name, value) => places.get(value) ?? value)
}

it(
  'brings in any small night as it was, under ids that are free, and a second time nothing',
  () => {
    fc.assert(
      fc.property(anyNight, (drawn) => {
        const file = fileOf(drawn)
        const known = new Set(file.marks.map(({ key }) => key))
        const marks = file.marks.filter(
          ({ payload }) => payload.markKey === undefined || known.has(String(payload.markKey)),
        )
        const text = JSON.stringify({ ...file, marks })
        const first = desk.carry.bringNight(text, false)
        expect(first).toMatchObject({ isNewNight: true, marks: marks.length, differs: [] })
        const kept = desk.carry.nightFile(first.nightId ?? '')
        const named = kept.things.length > 0 ? file.things : []
        expect(saying(kept)).toEqual(saying({ ...file, marks, things: named }))
        expect(desk.carry.bringNight(text, true)).toEqual({ ...first, isNewNight: false, marks: 0, parts: 0 })
      }),
      { numRuns: 20 },
    )
  },
  SLOW_MS,
)
