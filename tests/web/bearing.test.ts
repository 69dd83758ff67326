import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { bearingDeg, bearingText } from '../../server/web/pages/bearing.ts'
import { ENGLISH } from '../support/page-data.ts'

const deg = (text: string) => bearingDeg(ENGLISH, text)

describe('a direction as people type it', () => {
  it('may be a compass point in full or in its first letters', () => {
    expect(['north', 'N', 'North-West', 'north west', 'nw', 'SSE', 'south-south-east', 'W'].map(deg)).toEqual([
      0, 0, 315, 315, 315, 157.5, 157.5, 270,
    ])
  })

  it('may be degrees, with a comma or the sign, and 360 is north', () => {
    expect(['0', '94', '94°', ' 112,5 ', '360', '359.9'].map(deg)).toEqual([0, 94, 94, 112.5, 0, 359.9])
  })

  it.each(['', ' ', 'barn', 'nn', '361', '-10', '12 34', '1e2', '°'])('is not %j', (text) =>
    expect(deg(text)).toBeNaN(),
  )

  it('comes back from its own words, whatever the direction', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 3599 }), (tenths) => {
        expect(deg(bearingText(ENGLISH, tenths / 10))).toBe(tenths / 10)
      }),
    )
    for (let point = 0; point < 16; point++) expect(deg(bearingText(ENGLISH, point * 22.5))).toBe(point * 22.5)
  })
})
