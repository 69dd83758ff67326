import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { chanceAt, chanceOf } from '../../server/sight/chance.ts'
import { newcomerFactor, type Outcome, PRIOR, type Trial } from '../../server/sight/newcomer.ts'
import { marginsOf } from '../../server/sight/newcomer-margin.ts'
import { chanceAndView } from '../../server/sight/sighting.ts'
import { seededRandom } from '../../server/sky/random.ts'
import { conditionsWith, darkNight, moonNight, things, viewAt } from '../support/sight-data.ts'

const RESTED = { share: 0, lostMag: 0 }
const OUTCOMES = ['they', 'half', 'not'] as const
const magOf = (factor: number) => 2.5 * Math.log10(factor)

const word = (outcome: Outcome, lightMag: number, thing = `${outcome} ${lightMag}`): Trial => ({
  thing,
  lightMag,
  otherMag: 99,
  dazzle: RESTED,
  outcome,
})
const times = (count: number, make: (i: number) => Trial) => Array.from({ length: count }, (_, i) => make(i))

describe('the newcomer factor before any word', () => {
  it('is the published one with its range', () => {
    const { factor, low, high, trials, telling } = newcomerFactor([])
    for (const [found, wanted] of [
      [factor, PRIOR.factor],
      [low, PRIOR.low],
      [high, PRIOR.high],
    ] as const) {
      expect(found).toBeCloseTo(wanted, 2)
    }
    expect([trials, telling]).toEqual([0, 0])
  })

  it('stays so however often the Moon is praised or a star too faint for anybody is not seen', () => {
    const { factor, low, high, trials, telling } = newcomerFactor([
      ...times(40, () => word('they', 15, 'moon')),
      ...times(40, () => word('not', -6, 'star')),
    ])
    expect(factor).toBeCloseTo(PRIOR.factor, 2)
    expect(low).toBeCloseTo(PRIOR.low, 2)
    expect(high).toBeCloseTo(PRIOR.high, 2)
    expect([trials, telling]).toEqual([80, 0])
  })

  it('learns nothing from a pair that is too close, however bright', () => {
    const close = times(30, (i) => ({ ...word('not', 2, `pair ${i}`), otherMag: -1 }))
    expect(newcomerFactor(close)).toEqual({ ...newcomerFactor([]), trials: 30 })
  })
})

describe('words of the field', () => {
  it('lower the factor when people see what half of newcomers should, and raise it when they do not', () => {
    const atTheEdge = magOf(4)
    const seen = newcomerFactor(times(12, (i) => word('they', atTheEdge, `thing ${i}`)))
    const unseen = newcomerFactor(times(12, (i) => word('not', atTheEdge, `thing ${i}`)))
    const half = newcomerFactor(times(12, (i) => word('half', atTheEdge, `thing ${i}`)))
    expect(seen.high).toBeLessThan(4)
    expect(unseen.low).toBeGreaterThan(4)
    expect(Math.abs(half.factor - 4)).toBeLessThan(0.3)
    expect(half.high - half.low).toBeLessThan(0.7 * (PRIOR.high - PRIOR.low))
    expect(half.telling).toBe(12)
  })

  it('about one thing tell less than as many about many things, for its light may be wrong in the catalogue', () => {
    const one = newcomerFactor(times(12, () => word('they', 1.5, 'm57')))
    const many = newcomerFactor(times(12, (i) => word('they', 1.5, `thing ${i}`)))
    expect(one.high - one.low).toBeGreaterThan(1.2 * (many.high - many.low))
    expect(one.factor).toBeGreaterThan(many.factor)
  })

  it('hardly move it when one in a night is a slip', () => {
    const before = newcomerFactor(times(12, (i) => word('they', 3, `thing ${i}`)))
    const after = newcomerFactor([...times(12, (i) => word('they', 3, `thing ${i}`)), word('not', 4, 'saturn')])
    expect(Math.abs(after.factor / before.factor - 1)).toBeLessThan(0.01)
  })

  it('never raise it by a they nor lower it by a not, whatever was said before', () => {
    const trial = fc.record({
      thing: fc.constantFrom('m57', 'm13', 'm31', 'm1'),
      lightMag: fc.double({ min: -2, max: 6, noNaN: true }),
      otherMag: fc.constantFrom(99, 1.5),
      dazzle: fc.record({ share: fc.constantFrom(0, 0.25, 1), lostMag: fc.constantFrom(0, 0.3, 1.2) }),
      outcome: fc.constantFrom(...OUTCOMES),
    })
    fc.assert(
      fc.property(fc.array(trial, { maxLength: 12 }), trial, (said, more) => {
        const before = newcomerFactor(said)
        const [they, not] = (['they', 'not'] as const).map((outcome) => newcomerFactor([...said, { ...more, outcome }]))
        for (const part of ['factor', 'low', 'high'] as const) {
          expect(they?.[part]).toBeLessThanOrEqual(before[part] + 1e-9)
          expect(not?.[part]).toBeGreaterThanOrEqual(before[part] - 1e-9)
        }
      }),
      { numRuns: 120 },
    )
  })
})

describe('a simulated season', () => {
  const random = seededRandom(23)
  const normal = () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random())
  const SEASONS = 60

  /** What an operator says of ten visitors, one in twenty times anything. */
  function said(chance: number): Outcome {
    if (random() < 0.05) return OUTCOMES[Math.floor(3 * random())] ?? 'half'
    const saw = Array.from({ length: 10 }, random).filter((luck) => luck < chance).length
    return saw >= 8 ? 'they' : saw <= 2 ? 'not' : 'half'
  }

  /** Twelve things, five words about each; the light of each is wrong by so much. */
  function isFound(trueFactor: number, wrongMag: number): boolean {
    const trials = times(12, (i) => word('half', 0.5 + 3 * random(), `thing ${i}`)).flatMap((trial) => {
      const chance = chanceAt(trial.lightMag + wrongMag * normal() - magOf(trueFactor))
      return times(5, () => ({ ...trial, outcome: said(chance) }))
    })
    const { low, high } = newcomerFactor(trials)
    return low <= trueFactor && trueFactor <= high
  }
  const share = (season: () => boolean) => times(SEASONS, () => word('half', 0)).filter(season).length / SEASONS

  it.each([2.4, 3, 4, 5])('finds a true factor of %f in four seasons of five or more', (trueFactor) => {
    expect(share(() => isFound(trueFactor, 0))).toBeGreaterThanOrEqual(0.8)
  })

  it('claims neither too much nor too little when the catalogue is as wrong as is reckoned with', () => {
    const fromPrior = () => {
      const z = normal()
      return 4 * 10 ** (0.4 * z * (z < 0 ? magOf(4 / 2.4) / 1.2816 : magOf(5 / 4) / 1.2816))
    }
    const found = share(() => isFound(fromPrior(), 0.5))
    expect(found).toBeGreaterThan(0.68)
    expect(found).toBeLessThan(0.92)
  })
})

describe('the margins before any factor', () => {
  const conditions = conditionsWith({ moonGazerShare: 0.3 })
  it.each(Object.entries(things))('of %s give the chance of the service at every factor', (_, thing) => {
    const view = viewAt(150, 60)
    for (const sky of [darkNight, moonNight]) {
      const geometry = thing.kind === 'moon' ? { ...sky, moon: null } : sky
      const { lightMag, otherMag, dazzle } = marginsOf(thing, geometry, view, conditions)
      for (const noviceFactor of [1, 2.4, 4, 7]) {
        const { chance } = chanceAndView(thing, geometry, view, { ...conditions, noviceFactor })
        expect(chanceOf(lightMag - magOf(noviceFactor), otherMag, dazzle)).toBeCloseTo(chance, 6)
      }
    }
  })
})
