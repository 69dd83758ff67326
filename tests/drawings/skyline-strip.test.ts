import { describe, expect, it } from 'vitest'
import { skylineStrip } from '../../server/drawings/skyline-strip.ts'
import { ENGLISH } from '../support/page-data.ts'

const strip = (altitudeDeg: number) =>
  skylineStrip(
    {
      name: 'A & B',
      horizon: [
        { azimuthDeg: 90, altitudeDeg: 0, name: '' },
        { azimuthDeg: 180, altitudeDeg, name: 'oak' },
        { azimuthDeg: 270, altitudeDeg: 0, name: '' },
      ],
    },
    ENGLISH,
  )

/** The outline as pairs, and how high the ground stands in the drawing. */
function outline(svg: string) {
  const points = /<polyline points="([^"]*)"/.exec(svg)?.[1]?.split(' ') ?? []
  const groundMm = Number(/<line [^>]*y1="([^"]*)"/.exec(svg)?.[1])
  return { groundMm, points: points.map((point) => point.split(',').map(Number) as [number, number]) }
}

describe('what stands around a site, in one strip', () => {
  it('is as wide as high, with south in the middle', () => {
    const { points, groundMm } = outline(strip(36))
    const mmPerDeg = 110 / 360
    const [xMm, yMm] = points.reduce((top, point) => (point[1] < top[1] ? point : top))
    expect(xMm).toBeCloseTo(180 * mmPerDeg, 1)
    expect(groundMm - yMm).toBeCloseTo(36 * mmPerDeg, 1)
    expect(points.filter(([x]) => x < 80 * mmPerDeg).every(([, y]) => Math.abs(y - groundMm) < 0.01)).toBe(true)
  })

  it('holds a wall as high as the zenith, and names its ends and its quarters', () => {
    const svg = strip(90)
    expect(Math.min(...outline(svg).points.map(([, y]) => y))).toBeGreaterThanOrEqual(0)
    expect([...svg.matchAll(/<text[^>]*>([^<]*)</g)].map(([, letters]) => letters)).toEqual(['N', 'E', 'S', 'W', 'N'])
    expect(svg).toContain('A &amp; B')
  })
})
