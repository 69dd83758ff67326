import { describe, expect, it } from 'vitest'
import { closeLineAt, cycleAt, looksInStay, looksPerHour, waitMin } from '../../server/tours/line.ts'
import { peopleAt } from '../../server/tours/visitors.ts'
import { demoNight } from '../support/demo-night.ts'

describe('the line at a telescope', () => {
  it('gives 100 looks an hour at a cycle of 36 seconds, and never more', () => {
    // 75 children, 2 telescopes, 45 minutes, both looked in: a teacher's report of a school night.
    expect(looksPerHour((45 * 60 * 2) / 150)).toBe(100)
    expect(looksPerHour(20)).toBe(100)
    expect(looksPerHour(50)).toBe(72)
  })

  it('takes half an hour for thirty people at a minute each', () => {
    expect(waitMin(30, 60)).toBeCloseTo(30, 9)
  })

  it('is closed early enough for the last one to look', () => {
    const leaveAt = new Date('2026-12-17T18:48:00Z')
    expect(closeLineAt(leaveAt, 12, 50).toISOString()).toBe('2026-12-17T18:38:00.000Z')
  })

  it('gives a family of a full field about five looks in a stay', () => {
    expect(looksInStay(75, 72, 4, 50)).toBeCloseTo(5, 9)
    expect(looksInStay(75, 0, 4, 50)).toBe(Number.POSITIVE_INFINITY)
  })

  it('moves more slowly with children and where the operator centres again for everyone', () => {
    expect(cycleAt(50, 1, 'altaz-driven', 120)).toBe(65)
    expect(cycleAt(50, 0, 'altaz-hand', 120)).toBe(70)
    expect(cycleAt(50, 0, 'altaz-hand', 40)).toBe(50)
  })
})

describe('the people on the field', () => {
  it('are those of the half hour, and of the last row after it', () => {
    expect(peopleAt(demoNight, new Date('2026-12-17T17:40:00Z'))).toMatchObject({ adults: 22, children: 28 })
    expect(
      peopleAt({ ...demoNight, visitors: demoNight.visitors.slice(0, 1) }, new Date('2026-12-17T19:40:00Z')),
    ).toMatchObject({ adults: 18 })
  })

  it('are twenty at every telescope when nobody has counted on them', () => {
    expect(peopleAt({ ...demoNight, visitors: [] }, new Date('2026-12-17T17:40:00Z'))).toMatchObject({ adults: 80 })
  })
})
