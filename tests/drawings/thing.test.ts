import { describe, expect, it } from 'vitest'
import { type ThingDrawing, thingDrawing, thingSmall } from '../../server/drawings/thing.ts'
import { starsWanted } from '../../server/drawings/thing-stars.ts'
import { OBJECT_KINDS, type ShowObject } from '../../server/tours/target.ts'
import { ENGLISH } from '../support/page-data.ts'
import { showObject } from '../support/show-objects.ts'

const drawn = (
  given: Partial<ShowObject>,
  stars: readonly { raDeg: number; decDeg: number; magnitude: number }[] = [],
) => {
  const drawing = thingDrawing({ thing: showObject(given), stars, bv: null }, ENGLISH)
  if (drawing === null) throw new Error('This has a picture')
  return drawing
}
const GALAXY: Partial<ShowObject> = { key: 'm31', kind: 'galaxy', majorArcmin: 190, minorArcmin: 60, angleDeg: 35 }
const dotsIn = ({ svg }: ThingDrawing): [number, number][] =>
  [...svg.matchAll(/M([\d.-]+) ([\d.-]+)h/g)].map(([, x, y]) => [Number(x), Number(y)])

describe('the picture of a thing', () => {
  it('draws an ellipse in the proportions and at the angle of the row, beside a Moon to the same scale', () => {
    const { ellipses, measure, pxPerArcmin } = drawn(GALAXY)
    const [ellipse] = ellipses
    expect(ellipse?.angleDeg).toBe(35)
    expect((ellipse?.halfMajorPx ?? 0) * 2).toBeCloseTo(190 * pxPerArcmin, 9)
    expect((ellipse?.halfMinorPx ?? 0) * 2).toBeCloseTo(60 * pxPerArcmin, 9)
    expect(measure?.code).toBe('moon')
    expect(measure?.px).toBeCloseTo(31 * pxPerArcmin, 9)
  })

  it('has east on the left: an angle from north through east leans the top to the left', () => {
    const { svg, ellipses } = drawn(GALAXY)
    expect(svg).toContain('rotate(-35 ')
    const [middle = { x: 0, y: 0 }] = ellipses
    const upper = dotsIn(drawn(GALAXY)).filter(([x, y]) => y < middle.y - 60 && x < 330)
    const left = upper.filter(([x]) => x < middle.x)
    expect(upper.length).toBeGreaterThan(10)
    expect(left.length / upper.length).toBeGreaterThan(0.9)
  })

  it('says so when the row has no angle, and nothing of it for what is round', () => {
    const long = { ...GALAXY, angleDeg: null }
    expect(drawn(long).notes.join(' ')).toContain('drawn lying')
    expect(drawn({ ...long, minorArcmin: 190 }).notes.join(' ')).not.toContain('lying')
    expect(drawn(GALAXY).notes.join(' ')).not.toContain('lying')
  })

  it.each([
    [0.02, 'arcsecond', '1 arcsecond'],
    [0.5, 'ten-arcseconds', '10 arcseconds'],
    [4, 'arcminute', '1 arcminute: a sixtieth of a degree'],
    [12, 'moon', 'the full Moon'],
    [300, 'moon', 'the full Moon'],
    [1500, 'fist', 'a fist at arm’s length: 10 degrees'],
  ])('measures what is %d arcminutes wide by %s', (arcmin, code, text) => {
    const drawing = drawn({ kind: 'planetary', majorArcmin: arcmin, minorArcmin: arcmin })
    expect(drawing.measure?.code).toBe(code)
    expect(drawing.svg).toContain(text)
    expect(drawing.measure?.px).toBeCloseTo((drawing.measure?.arcmin ?? 0) * drawing.pxPerArcmin, 9)
  })

  it('keeps everything on the paper, whatever its size', () => {
    for (const arcmin of [0.02, 0.12, 0.14, 0.79, 0.81, 2, 9.9, 10, 31, 119, 300, 601, 3600]) {
      for (const ratio of [1, 0.2]) {
        for (const angleDeg of [0, 45, 90]) {
          const drawing = drawn({ kind: 'nebula', majorArcmin: arcmin, minorArcmin: arcmin * ratio, angleDeg })
          const [, height = 0] = /viewBox="0 0 520 (\d+)"/.exec(drawing.svg)?.map(Number) ?? []
          const dots = dotsIn(drawing)
          expect(dots.length).toBeGreaterThan(30)
          for (const [x, y] of dots) expect(x > 0 && x < 520 && y > 30 && y < height - 20).toBe(true)
          expect(drawing.measure?.px).toBeLessThan(400)
        }
      }
    }
  })

  it('is the same at every drawing, and another for another thing', () => {
    const one = drawn(GALAXY).svg
    expect(drawn(GALAXY).svg).toBe(one)
    expect(drawn({ ...GALAXY, key: 'm33' }).svg).not.toBe(one)
  })

  it('puts half of a globular cluster inside its half-light radius', () => {
    const drawing = drawn({ kind: 'globular', majorArcmin: 60, minorArcmin: 60, halfLightArcmin: 3 })
    const { x, y } = drawing.ellipses[0] ?? { x: 0, y: 0 }
    const off = dotsIn(drawing)
      .map(([dx, dy]) => Math.hypot(dx - x, dy - y))
      .filter((px) => px < 30 * drawing.pxPerArcmin)
    const inside = off.filter((px) => px <= 3 * drawing.pxPerArcmin)
    expect(inside.length / off.length).toBeGreaterThan(0.4)
    expect(inside.length / off.length).toBeLessThan(0.6)
  })
})

describe('stars in a picture', () => {
  const DOUBLE: Partial<ShowObject> = {
    kind: 'double',
    componentMagnitudes: [3.1, 5.1],
    separationArcsec: 34.6,
    pairAngleDeg: 54,
    colours: ['gold', 'blue'],
  }

  it('are two of a double at their distance and angle, the brighter larger, with their colours as words', () => {
    const { stars, pxPerArcmin, svg } = drawn(DOUBLE)
    const [bright, faint] = stars
    const [east, north] = [(bright?.x ?? 0) - (faint?.x ?? 0), (bright?.y ?? 0) - (faint?.y ?? 0)]
    expect(Math.hypot(east, north)).toBeCloseTo((34.6 / 60) * pxPerArcmin, 6)
    expect((Math.atan2(east, north) * 180) / Math.PI).toBeCloseTo(54, 6)
    expect(bright?.radiusPx).toBeGreaterThan(faint?.radiusPx ?? 0)
    expect(svg).toMatch(/>gold<.*>blue</)
    expect(svg).toContain('35 arcseconds apart')
  })

  it('are those of a cluster in their places, where the star table has enough', () => {
    const stars = Array.from({ length: 12 }, (_, i) => ({
      raDeg: 56 + 0.1 * Math.cos(i),
      decDeg: 24 + 0.1 * Math.sin(i),
      magnitude: 4 + i / 4,
    }))
    const cluster: Partial<ShowObject> = {
      kind: 'open-cluster',
      raDeg: 56,
      decDeg: 24,
      majorArcmin: 60,
      starCount: 300,
    }
    const full = drawn(cluster, stars)
    expect(full.stars).toHaveLength(12)
    expect(full.notes.join(' ')).toContain('Every star of its field is in place')
    const [first] = full.stars
    const { x, y } = full.ellipses[0] ?? { x: 0, y: 0 }
    expect(((x - (first?.x ?? 0)) / full.pxPerArcmin / 60) * (1 / Math.cos((24 * Math.PI) / 180))).toBeCloseTo(0.1, 3)
    expect((first?.y ?? 0) - y).toBeCloseTo(0, 0)
    const few = drawn(cluster, stars.slice(0, 4))
    expect(few.stars).toHaveLength(84)
    expect(few.notes.join(' ')).toContain('The small ones are not in place')
    const none = drawn({ ...cluster, starCount: 20 }, [])
    expect(none.stars).toHaveLength(20)
    expect(none.notes.join(' ')).toContain('The dots are not in place')
  })

  it('are asked of the star table by name, by field, or not at all', () => {
    const wanted = (given: Partial<ShowObject>) => starsWanted(showObject({ raDeg: 10, decDeg: 20, ...given }))
    expect(wanted({ kind: 'asterism', hips: [5, 6] })).toEqual({ hips: [5, 6] })
    expect(wanted({ kind: 'open-cluster', majorArcmin: 120 })).toEqual({
      raDeg: 10,
      decDeg: 20,
      radiusDeg: 1,
      limitV: 8,
    })
    expect(wanted({ kind: 'meteor-shower' })).toMatchObject({ radiusDeg: 22 })
    expect(wanted({ kind: 'galaxy' })).toBeNull()
    expect(wanted({ kind: 'star', raDeg: null })).toBeNull()
  })

  it('have a word beside them where no neighbour stands', () => {
    const star: Partial<ShowObject> = { kind: 'star', raDeg: 80, decDeg: 0, magnitude: 2, bv: 1.3 }
    const anchorBeside = (raDeg: number) =>
      /<text [^>]*text-anchor="(\w+)"[^>]*>orange</.exec(drawn(star, [{ raDeg, decDeg: 0, magnitude: 6 }]).svg)?.[1]
    expect([anchorBeside(79), anchorBeside(81)]).toEqual(['end', 'start'])
  })

  it('tell the colour of a single star as a word', () => {
    expect(drawn({ kind: 'red-star', raDeg: 78, decDeg: 6, magnitude: 0.5, bv: 1.8 }).svg).toContain('>orange-red<')
  })
})

describe('bodies in a picture', () => {
  it('are a planet at its widest and its smallest, to scale', () => {
    const { ellipses, pxPerArcmin } = drawn({ kind: 'planet', body: 'mars' })
    const [near, far] = ellipses.map(({ halfMajorPx }) => (120 * halfMajorPx) / pxPerArcmin)
    expect(near).toBeCloseTo(24.7, 0) // arcseconds: 25.1 at best, 3.5 at worst, from memory
    expect(far).toBeCloseTo(3.5, 1)
  })

  it('are the Moon as its own measure', () => {
    const { measure, svg, pxPerArcmin, ellipses } = drawn({ kind: 'moon', body: 'moon', raDeg: null, decDeg: null })
    expect(measure).toBeNull()
    expect(2 * (ellipses[0]?.halfMajorPx ?? 0)).toBeCloseTo(31 * pxPerArcmin, 9)
    expect(svg).toContain('31 arcminutes wide')
  })
})

describe('every picture', () => {
  const OF_KIND: Partial<ShowObject> = {
    raDeg: 80,
    decDeg: 20,
    body: null,
    parent: 'saturn',
    majorArcmin: 20,
    minorArcmin: 10,
    componentMagnitudes: [2, 4],
    separationArcsec: 3,
    hips: [1, 2],
  }
  const stars = [
    { raDeg: 80.2, decDeg: 20.1, magnitude: 2 },
    { raDeg: 79.8, decDeg: 19.9, magnitude: 3 },
  ]

  it.each(OBJECT_KINDS)('of a %s has a title and words, black ink alone, and no style of its own', (kind) => {
    const body = kind === 'moon' ? 'moon' : kind === 'planet' ? 'venus' : null
    const { svg, notes } = drawn({ ...OF_KIND, kind, body, name: 'A <b>thing</b>' }, stars)
    expect(svg).toMatch(
      /^<svg viewBox="0 0 520 \d+" role="img" [^>]*><title>A &lt;b&gt;thing&lt;\/b&gt;, drawn to scale<\/title><desc>[^<]{10,}<\/desc>/,
    )
    expect(svg).not.toMatch(/style=|#[0-9a-f]{3}|rgb|NaN|undefined|Infinity/)
    expect(notes[0]).toContain('north is up and east is left')
    expect(notes.every((note) => note.endsWith('.'))).toBe(true)
    const small = thingSmall({ thing: showObject({ ...OF_KIND, kind, body }), stars, bv: null })
    expect(small).toMatch(/aria-hidden="true"/)
    expect(small).not.toMatch(/<text|NaN|undefined/)
  })

  it('is none where there is nothing to draw', () => {
    expect(
      thingDrawing(
        { thing: showObject({ kind: 'bare-eye', raDeg: null, decDeg: null }), stars: [], bv: null },
        ENGLISH,
      ),
    ).toBeNull()
    expect(thingSmall({ thing: showObject({ kind: 'galaxy', majorArcmin: null }), stars: [], bv: null })).toBeNull()
  })
})
