import { afterAll, describe, expect, it } from 'vitest'
import { freshDesk } from '../support/desk-folder.ts'

const { desk, close } = await freshDesk()
afterAll(close)

describe('things near another', () => {
  it('are told for any name of it, nearest first, and never further than 5 degrees', () => {
    const near = desk.objects.near('ngc1976', 6)
    expect(near[0]?.object.constellation).toBe('Ori')
    expect(near.map(({ object }) => object.key)).not.toContain('m42')
    const apart = near.map(({ separationDeg }) => separationDeg)
    expect(apart.length).toBeGreaterThan(2)
    expect(apart).toEqual([...apart].sort((a, b) => a - b))
    expect(Math.max(...apart)).toBeLessThanOrEqual(5)
  })

  it('are told for a star that is not on the list, and are none for a planet', () => {
    const { object } = desk.objects.find('hip25937') // a faint star in Orion's sword
    expect('isOutreach' in object && object.isOutreach).toBe(false)
    expect(desk.objects.near('hip25937', 10).length).toBeGreaterThan(0)
    expect(desk.objects.near('saturn', 10)).toEqual([])
  })

  it('are not told for what nobody knows', () => {
    expect(() => desk.objects.near('no-such-thing', 5)).toThrow(expect.objectContaining({ code: 'not-found' }))
  })
})
