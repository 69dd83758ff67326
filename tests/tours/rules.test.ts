import { describe, expect, it } from 'vitest'
import { type Grid, type Plan, shownAt } from '../../server/tours/grid.ts'
import { RULES } from '../../server/tours/rules.ts'
import type { ObjectKind } from '../../server/tours/target.ts'
import { botherLooks, eachLook, movingCost, roomFor } from '../../server/tours/value.ts'
import { demoNight } from '../support/demo-night.ts'

const SLOTS = 12
const MOON = 0
const MOON_CLOSE = 1
const SHOWPIECE = 2
const HARD = 3
const PLAIN = 4
const kinds: readonly ObjectKind[] = ['moon', 'moon', 'nebula', 'galaxy', 'open-cluster']
const appeals = [1, 1, 0.9, 0.5, 0.5]
const chances = [1, 1, 0.9, 0.6, 0.97]
const targets = [0, 0, 1, 2, 3]

const telescope = demoNight.stations[0]?.telescope
if (!telescope) throw new Error('The demo row has no telescope')

/** Four stations, three hours, five views on offer everywhere and all the time; 40 people who stay 75 minutes. */
const cells = 4 * kinds.length * SLOTS
const byCell = (of: (candidate: number) => number) =>
  Float64Array.from({ length: cells }, (_, i) => of(Math.floor(i / SLOTS) % kinds.length))
const grid: Grid = {
  borders: Array.from({ length: SLOTS + 1 }, (_, t) => new Date(Date.UTC(2026, 11, 17, 17, 15 * t))),
  slots: SLOTS,
  stations: [0, 1, 2, 3].map((place) => ({
    id: `station-${place}`,
    telescope,
    isForChair: place === 0,
    isForChildren: place === 0,
    place,
    smaller: [],
    bigness: 0,
    isDriftBeside: false,
  })),
  candidates: kinds.map((kind, c) => ({
    targetKey: `target-${targets[c]}`,
    aim: c === MOON_CLOSE ? 'close' : 'whole',
    kind,
    appeal: appeals[c] ?? 0,
    atOnce: kind === 'moon' ? 2 : 1,
    targetIndex: targets[c] ?? 0,
    column: c,
  })),
  worth: byCell((c) => appeals[c] ?? 0),
  chance: byCell((c) => chances[c] ?? 0),
  quality: byCell((c) => appeals[c] ?? 0),
  meanChance: byCell((c) => chances[c] ?? 0),
  meanView: byCell(() => 1),
  capacity: byCell(() => 18),
  setups: [],
  besides: [],
  moving: new Float64Array(4 * kinds.length ** 2).fill(3),
  people: new Float64Array(SLOTS).fill(40),
  fade: Float64Array.from({ length: SLOTS }, (_, t) => Math.exp((-15 * t) / 75)),
  targetOf: Int16Array.from(targets),
  targets: 4,
  kindOf: Uint8Array.from(kinds, (_, c) => targets[c] ?? 0),
  isStill: new Array<boolean>(SLOTS).fill(false),
  isMoonUp: new Array<boolean>(SLOTS).fill(true),
  ranked: Array.from({ length: 4 * SLOTS }, () => Int16Array.from([0, 1, 2, 3, 4])),
  isBest: Uint8Array.from({ length: kinds.length * SLOTS }, (_, i) => (i < 3 * SLOTS ? 1 : 0)),
  asked: [],
  kept: new Int16Array(),
  opening: 0,
}

/** A plan that shows one thing a station all evening, -1 for nothing. */
const steady = (...shown: readonly number[]): Plan =>
  Int16Array.from({ length: 4 * SLOTS }, (_, i) => shown[Math.floor(i / SLOTS)] ?? -1)

const breaches = (code: string, plan: Plan, slot = SLOTS - 1): number =>
  RULES.find((rule) => rule.code === code)?.breachesAt(grid, plan, slot) ?? Number.NaN

function changed(plan: Plan, station: number, from: number, candidate: number): Plan {
  const next = plan.slice()
  for (let t = from; t < SLOTS; t++) next[station * SLOTS + t] = candidate
  return next
}

const good = steady(MOON, SHOWPIECE, HARD, PLAIN)

describe('a row that keeps every rule', () => {
  it('breaks none in any quarter', () => {
    for (const rule of RULES) for (let t = 0; t < SLOTS; t++) expect(rule.breachesAt(grid, good, t)).toBe(0)
  })
})

describe('the rules of a row', () => {
  it('want no more telescopes on an object than it bears, whole and close together', () => {
    expect(breaches('rule.at-once', steady(MOON, MOON_CLOSE, SHOWPIECE, PLAIN))).toBe(0)
    expect(breaches('rule.at-once', steady(MOON, MOON_CLOSE, MOON, PLAIN))).toBe(1)
    expect(breaches('rule.at-once', steady(MOON, PLAIN, SHOWPIECE, PLAIN))).toBe(1)
  })

  it('want the Moon on somewhere while it is up', () => {
    expect(breaches('rule.moon-always', steady(SHOWPIECE, HARD, PLAIN, -1))).toBe(1)
    expect(breaches('rule.moon-always', steady(SHOWPIECE, HARD, MOON_CLOSE, -1))).toBe(0)
  })

  it('want one telescope in four to show what anyone sees', () => {
    expect(breaches('rule.anyone-sees', steady(SHOWPIECE, HARD, HARD, HARD))).toBe(1)
    expect(breaches('rule.anyone-sees', steady(SHOWPIECE, HARD, HARD, PLAIN))).toBe(0)
  })

  it('want three quarters of the row to show different things', () => {
    expect(breaches('rule.row-alike', steady(MOON, MOON_CLOSE, SHOWPIECE, PLAIN))).toBe(0)
    expect(breaches('rule.row-alike', steady(MOON, MOON_CLOSE, PLAIN, PLAIN))).toBe(1)
  })

  it('want one of the three best things at the chair and at the children, each counted', () => {
    expect(breaches('rule.best-for-all', steady(PLAIN, MOON, SHOWPIECE, HARD))).toBe(2)
    expect(breaches('rule.best-for-all', good)).toBe(0)
  })

  it('want a showpiece in the last half hour, and only there', () => {
    const dull = steady(PLAIN, HARD, -1, -1)
    expect(breaches('rule.last-showpiece', dull)).toBe(1)
    expect(breaches('rule.last-showpiece', dull, SLOTS - 3)).toBe(0)
  })

  it('want four moves a telescope at most in three hours', () => {
    let plan = good
    for (const [k, slot] of [2, 4, 6, 8, 10].entries()) plan = changed(plan, 3, slot, k % 2 === 0 ? HARD : PLAIN)
    expect(breaches('rule.moves', plan, 8)).toBe(0)
    expect(breaches('rule.moves', plan, 10)).toBe(1)
  })

  it('want neighbours to begin at different quarters, but for the opening', () => {
    const together = changed(changed(good, 2, 5, PLAIN), 3, 5, HARD)
    expect(breaches('rule.neighbours-together', together, 5)).toBe(1)
    expect(breaches('rule.neighbours-together', together, 0)).toBe(0)
    expect(breaches('rule.neighbours-together', changed(changed(good, 1, 5, PLAIN), 3, 5, SHOWPIECE), 5)).toBe(0)
  })

  it('want no telescope idle while it has something to show', () => {
    expect(breaches('rule.idle', steady(MOON, SHOWPIECE, HARD, -1))).toBe(1)
  })

  it('weigh more the later they give way', () => {
    const weights = RULES.map(({ weight }) => weight)
    expect(weights).toEqual([...weights].sort((a, b) => a - b))
  })
})

describe('the stock of new eyes', () => {
  const looksOf = (plan: Plan): number[][] => {
    const looks = [0, 1, 2, 3].map(() => new Array<number>(SLOTS).fill(0))
    eachLook(grid, plan, roomFor(grid), (cell, count) => {
      const [s, t] = [Math.floor(cell / (kinds.length * SLOTS)), cell % SLOTS]
      const row = looks[s]
      if (row !== undefined && shownAt(grid, plan, s, t) >= 0) row[t] = count
    })
    return looks
  }

  it('never lets the faded looks at one target exceed the people on the field', () => {
    const [first = [], second = []] = looksOf(steady(MOON, MOON_CLOSE, -1, -1))
    for (let t = 0; t < SLOTS; t++) {
      let felt = 0
      for (let u = 0; u <= t; u++) felt += ((first[u] ?? 0) + (second[u] ?? 0)) * Math.exp((-15 * (t - u)) / 75)
      expect(felt).toBeLessThanOrEqual(40 + 1e-9)
    }
    expect(first[0]).toBe(18)
    expect(second[0]).toBe(18)
  })

  it('makes a target as good as new for new people about an hour after it was taken off', () => {
    let plan = steady(SHOWPIECE, -1, -1, -1)
    for (let t = 3; t < 8; t++) plan = changedAt(plan, t)
    const [looks = []] = looksOf(plan)
    expect(looks[2]).toBeLessThan(18)
    expect(looks[8]).toBe(18)
  })
})

function changedAt(plan: Plan, slot: number): Plan {
  const next = plan.slice()
  next[slot] = -1
  return next
}

describe('moving', () => {
  it('costs nothing for a telescope that stays, and something for every change', () => {
    expect(movingCost(grid, good)).toBe(0)
    const once = movingCost(grid, changed(good, 3, 6, HARD))
    expect(once).toBeCloseTo(botherLooks(grid) + 3 * 0.5, 9)
    expect(movingCost(grid, changed(changed(good, 3, 4, HARD), 3, 8, PLAIN))).toBeCloseTo(2 * once, 9)
  })
})
