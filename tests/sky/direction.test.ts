import { describe, expect, it } from 'vitest'
import { directionDeg } from '../../server/sky/direction.ts'

describe('the direction from one place of the sky to another', () => {
  it('runs from north through east', () => {
    const from = { raDeg: 359.9, decDeg: 10 }
    expect(directionDeg(from, { raDeg: 359.9, decDeg: 11 })).toBeCloseTo(0, 9)
    expect(directionDeg(from, { raDeg: 0.1, decDeg: 10 })).toBeCloseTo(90, 1)
    expect(directionDeg(from, { raDeg: 359.9, decDeg: 9 })).toBeCloseTo(180, 9)
    expect(directionDeg(from, { raDeg: 359.7, decDeg: 10 })).toBeCloseTo(270, 1)
  })

  // Meeus, 2nd ed., chapter 17 has the formula; Mizar to Alcor: 71 degrees by their places in XHIP.
  it('leads from Mizar to Alcor', () => {
    const [mizar, alcor] = [
      { raDeg: 200.9814, decDeg: 54.9254 },
      { raDeg: 201.3064, decDeg: 54.988 },
    ]
    expect(directionDeg(mizar, alcor)).toBeCloseTo(71.4, 0)
  })

  it('is the other way round on the way back, but for the turn of the meridians', () => {
    const [one, other] = [
      { raDeg: 10, decDeg: 0 },
      { raDeg: 11, decDeg: 1 },
    ]
    expect(directionDeg(other, one)).toBeCloseTo(directionDeg(one, other) + 180, 1)
  })
})
