import { describe, expect, it } from 'vitest'
import { pointAt, pointingOf } from '../../server/tours/pointing.ts'

describe('a direction as an arm shows it', () => {
  it('takes the nearest of sixteen points, round the north as well', () => {
    expect([0, 11.2, 11.3, 90, 247.5, 348.7, 348.8, 360, -90].map(pointAt)).toEqual([0, 0, 1, 4, 11, 15, 0, 0, 12])
  })

  it('counts fists of ten degrees to the half', () => {
    const fists = [0, 2.4, 2.6, 24.4, 90].map((altitudeDeg) => pointingOf({ altitudeDeg, azimuthDeg: 0 }).fists)
    expect(fists).toEqual([0, 0, 0.5, 2.5, 9])
  })
})
