import { describe, expect, it } from 'vitest'
import {
  FAULT_CAUSES,
  type FaultCause,
  type FaultQuestion,
  type FaultSeen,
  type FaultThing,
  type Miss,
  missApartDeg,
} from '../../server/tours/faults.ts'
import { waysOf } from '../../server/tours/faults-mistakes.ts'
import { findFaults } from '../../server/tours/faults-rank.ts'
import { faultSky, missAfter } from '../../server/tours/faults-sky.ts'
import { brightStars } from '../support/bright-stars.ts'
import { faultCase, NOISE_DEG } from '../support/fault-cases.ts'

const CASES = 100
const FIRST_SEED = 1
/** 95 of 100 readings with the noise lie within this of what was read. */
const WITHIN_DEG = NOISE_DEG * Math.sqrt(2 * Math.log(20))

interface Outcome {
  readonly cause: FaultCause
  /** First, tied with the first and truly within the noise of it, or neither. */
  readonly named: 'first' | 'tied' | 'no'
  readonly tied: number
}

function outcomeOf(cause: FaultCause, seed: number): Outcome {
  const { question, trueMiss } = faultCase(cause, seed)
  const { causes } = findFaults(question)
  const [first] = causes
  const mine = causes.find((one) => one.cause === cause)
  const isWithin = first !== undefined && missApartDeg(first.miss, trueMiss) <= WITHIN_DEG
  const named = first?.cause === cause ? 'first' : mine?.isTied && isWithin ? 'tied' : 'no'
  return { cause, named, tied: causes.filter(({ isTied }) => isTied).length }
}

const STARS: readonly FaultThing[] = brightStars().map(({ key, name, magnitude, place }) => ({
  key,
  name,
  magnitude,
  place,
}))
const MOON: FaultThing = { key: 'moon', name: 'Moon', magnitude: -10, place: 'moon' }

function star(name: string): FaultThing {
  const found = STARS.find((one) => one.name === name)
  if (!found) throw new Error(`No star ${name}`)
  return found
}

/** Munich, 17 December 2026, 18:20: Moon in the south, Vega in the west, Capella in the east. */
const EVENING: Omit<FaultQuestion, 'stage' | 'centred' | 'aimed' | 'seen'> = {
  at: new Date('2026-12-17T17:20:00Z'),
  place: { latitudeDeg: 48.2, longitudeDeg: 11.6, heightM: 520 },
  zone: 'Europe/Berlin',
  declinationDeg: 4.4,
  lights: [...STARS, MOON],
  otherPlaces: [],
}
const BEFORE = { ...EVENING, stage: 'before', centred: [], aimed: star('Capella') } as const
const BOTH = { ...EVENING, stage: 'both', centred: [star('Vega'), star('Capella')], aimed: MOON } as const
const LOST: FaultSeen = { kind: 'lost' }

const off = ({ rightDeg, upDeg }: Miss): FaultSeen => ({ kind: 'off', rightDeg, upDeg, noiseDeg: NOISE_DEG })
const sizeOf = ({ rightDeg, upDeg }: Miss): number => Math.hypot(rightDeg, upDeg)

/** The miss after the first way to make a mistake. */
function missOf(asked: Omit<FaultQuestion, 'seen'>, cause: FaultCause, thing: FaultThing): Miss {
  const question = { ...asked, seen: LOST }
  const [way] = waysOf(cause, question)
  if (!way) throw new Error(`No way to make ${cause}`)
  return missAfter(faultSky(), question, way, thing).miss
}

describe('the finder of faults on generated set-ups', () => {
  it('names the right cause first, or with those that the noise does not tell from it, in 95 of 100', () => {
    const outcomes = Array.from({ length: CASES }, (_, i) =>
      outcomeOf(FAULT_CAUSES[i % FAULT_CAUSES.length] ?? 'hour', FIRST_SEED + i),
    )
    const count = (named: Outcome['named']) => outcomes.filter((one) => one.named === named).length
    const wrong = outcomes.filter(({ named }) => named === 'no').map(({ cause }) => cause)
    expect(count('first') + count('tied'), wrong.join()).toBeGreaterThanOrEqual(0.95 * CASES)
    expect(count('first')).toBeGreaterThanOrEqual(0.9 * CASES)
    // What ties everything together tells nobody anything.
    const tied = outcomes.filter((one) => one.tied > 0)
    expect(tied.length).toBeLessThan(0.3 * CASES)
    expect(tied.reduce((sum, one) => sum + one.tied, 0) / tied.length).toBeLessThan(3.5)
  })
})

describe('a mount with a wrong hour', () => {
  it('misses its first star by 15 degrees times the cosine of the declination', () => {
    const aldebaran = star('Aldebaran')
    const expected = 15.04 * Math.cos((16.5 * Math.PI) / 180)
    expect(sizeOf(missOf(BEFORE, 'hour', aldebaran))).toBeGreaterThan(0.9 * expected)
    expect(findFaults({ ...BEFORE, seen: off(missOf(BEFORE, 'hour', BEFORE.aimed)) }).causes[0]?.cause).toBe('hour')
  })

  it('finds every star once two are centred, and only the Moon is half a degree off', () => {
    for (const name of ['Aldebaran', 'Deneb', 'Altair', 'Polaris', 'Mirfak']) {
      expect(sizeOf(missOf(BOTH, 'hour', star(name))), name).toBeLessThan(0.05)
    }
    const moon = sizeOf(missOf(BOTH, 'hour', MOON))
    expect(moon).toBeGreaterThan(0.35)
    expect(moon).toBeLessThan(0.75)
  })
})

describe('what is named', () => {
  it('is the needle for a star at the right height and to the side, beside a base that is turned by chance', () => {
    const miss = missOf(BEFORE, 'magnetic', BEFORE.aimed)
    expect(Math.abs(miss.upDeg)).toBeLessThan(1e-6)
    const { causes } = findFaults({ ...BEFORE, seen: off(miss) })
    expect(causes[0]?.cause).toBe('magnetic')
    expect(causes.map(({ cause }) => cause)).toContain('askew')
  })

  it('is another star when a star misses after two: nothing else moves stars then', () => {
    const question = { ...BOTH, aimed: star('Deneb') }
    const miss = missOf(question, 'wrong-star', question.aimed)
    expect(findFaults({ ...question, seen: off(miss) }).causes[0]?.cause).toBe('wrong-star')
  })

  it('is the finder when the eyepiece alone is empty', () => {
    const { causes, next } = findFaults({ ...BOTH, seen: { kind: 'finder' } })
    expect(causes.map(({ cause }) => cause)).toEqual(['finder'])
    expect(next).toBeNull()
  })

  it('is no swap of day and month on the 17th, and no sign of a zone without an offset', () => {
    const causesOf = (question: Omit<FaultQuestion, 'seen'>) =>
      FAULT_CAUSES.filter((cause) => waysOf(cause, { ...question, seen: LOST }).length > 0)
    expect(causesOf(BEFORE)).not.toContain('day-month')
    expect(causesOf({ ...BEFORE, at: new Date('2026-12-05T17:20:00Z') })).toContain('day-month')
    expect(causesOf({ ...BEFORE, zone: 'Africa/Abidjan' })).not.toContain('zone-sign')
    expect(causesOf(BEFORE)).toContain('zone-sign')
  })

  it('is a place that the host has, sooner than any other', () => {
    const other = { latitudeDeg: 53.55, longitudeDeg: 10, heightM: 20 }
    const miss = { ...BEFORE, otherPlaces: [other] }
    const way = waysOf('other-site', { ...miss, seen: LOST }).at(-1)
    if (!way) throw new Error('There is such a way')
    const seen = off(missAfter(faultSky(), { ...miss, seen: LOST }, way, BEFORE.aimed).miss)
    expect(findFaults({ ...miss, seen }).causes[0]?.cause).toBe('other-site')
  })

  it('is nothing for a miss that no mistake makes', () => {
    const seen: FaultSeen = { kind: 'off', rightDeg: 12, upDeg: 9, noiseDeg: 0.5 }
    expect(findFaults({ ...BOTH, seen }).causes).toEqual([])
  })
})

describe('what cannot be told apart', () => {
  it('is said so: a Moon half a degree off after two stars may be the hour, another place or the finder', () => {
    const { causes } = findFaults({ ...BOTH, seen: off(missOf(BOTH, 'hour', MOON)) })
    const tied = causes.filter(({ isTied }) => isTied).map(({ cause }) => cause)
    expect(tied).toContain('hour')
    expect(tied).toContain('other-site')
    for (const { miss } of causes.filter(({ isTied }) => isTied)) {
      expect(missApartDeg(miss, causes[0]?.miss ?? miss)).toBeLessThanOrEqual(WITHIN_DEG)
    }
  })

  it('is many things for one that is merely lost, and fewer for one that was measured', () => {
    const lost = findFaults({ ...BEFORE, seen: LOST })
    const tied = lost.causes.filter(({ isTied }) => isTied)
    expect(tied.length).toBeGreaterThan(3)
    expect(lost.next).not.toBeNull()
    const [a, b] = lost.next?.misses ?? []
    expect(a && b && missApartDeg(a.miss, b.miss)).toBeGreaterThanOrEqual(2)
  })

  it('is nothing that leaves the thing above the horizon when the mount will not go there', () => {
    const { causes } = findFaults({ ...BEFORE, seen: { kind: 'refused' } })
    const named = causes.map(({ cause }) => cause)
    expect(named).not.toContain('magnetic')
    expect(named).not.toContain('finder')
    expect(named).toContain('latitude-sign')
  })
})
