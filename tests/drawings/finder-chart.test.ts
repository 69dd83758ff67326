import { afterAll, describe, expect, it } from 'vitest'
import type { FinderQuestion } from '../../server/desk/finder.ts'
import { type Drawable, type FinderChart, finderChart } from '../../server/drawings/finder-chart.ts'
import { noWayText } from '../../server/drawings/finder-chart-words.ts'
import { lineEm } from '../../server/drawings/letter-widths.ts'
import { degrees, radians, separationDeg } from '../../server/sky/angles.ts'
import type { Horizontal } from '../../server/sky/horizontal.ts'
import { apparentAltitudeDeg } from '../../server/sky/refraction.ts'
import type { NoWay } from '../../server/tours/hops.ts'
import type { Finder } from '../../server/tours/telescope.ts'
import { freshDesk } from '../support/desk-folder.ts'
import { goodMoments, NORTHERN, SOUTHERN, seenAt } from '../support/finder-data.ts'
import { ENGLISH, GERMAN } from '../support/page-data.ts'

const { desk, close } = await freshDesk()
afterAll(close)

const finder = (kind: Finder['kind'], fieldDeg: number | null): Finder => ({ kind, fieldDeg, powerX: null })
const RING_NIGHT = new Date('2026-09-12T19:30:00Z')

function drawn(given: Partial<FinderQuestion> & { key: string }, changed: Partial<Drawable> = {}) {
  const found = desk.charts.finder({ site: NORTHERN, at: RING_NIGHT, mainFieldDeg: 1, ...given })
  const { way } = found
  if (way.kind === 'none') throw new Error(`${given.key} is not to be found`)
  const subject: Drawable = { ...found, way, heightPx: null, idPrefix: 'card-1', ...changed }
  return { subject, chart: finderChart(subject, ENGLISH) }
}

/** Degrees right of and above the middle of a chart that keeps angles, by spherical trigonometry. */
function flat(middle: Horizontal, place: Horizontal): readonly [number, number] {
  const apart = separationDeg(middle.azimuthDeg, middle.altitudeDeg, place.azimuthDeg, place.altitudeDeg)
  const [here, there] = [radians(middle.altitudeDeg), radians(place.altitudeDeg)]
  const turn = radians(place.azimuthDeg - middle.azimuthDeg)
  const right = Math.sin(turn) * Math.cos(there)
  const up = Math.cos(here) * Math.sin(there) - Math.sin(here) * Math.cos(there) * Math.cos(turn)
  const angle = Math.atan2(right, up)
  const far = degrees(2 * Math.tan(radians(apart) / 2))
  return [far * Math.sin(angle), far * Math.cos(angle)]
}

/** The words in and around the map, with their left and right ends. */
function wordsAround(svg: string) {
  return [...svg.matchAll(/<text x="(-?[\d.]+)" y="-?[\d.]+" text-anchor="(start|middle)"[^>]*>([^<]+)</g)].map(
    ([, x = '', anchor, text = '']) => {
      const wide = lineEm(text) * 22
      const left = Number(x) - (anchor === 'middle' ? wide / 2 : 0)
      return { text, left, right: left + wide }
    },
  )
}

const everyFewth = () => goodMoments([NORTHERN, SOUTHERN]).filter((_, index) => index % 11 === 0)

describe('the finder chart', () => {
  it('has targets and stars where the sky floor sees them, to a tenth of a degree', () => {
    const moments = everyFewth()
    expect(moments.length).toBeGreaterThan(50)
    let compared = 0
    for (const { object, at, site } of moments) {
      const { subject, chart } = drawn({ key: object.key, at, site })
      const { middle } = subject.way.frame
      const [right, up] = flat(middle, seenAt(object, at, site))
      for (const star of chart.stars.filter(({ key }) => key.startsWith('hip')).slice(0, 12)) {
        const [seen] = desk.sky.places(at, site, [star.key])
        if (seen === undefined) throw new Error('A star has a place')
        const place = { altitudeDeg: apparentAltitudeDeg(seen.altitudeDeg), azimuthDeg: seen.azimuthDeg }
        const [starRight, starUp] = flat(middle, place)
        expect(Math.abs((star.x - chart.target.x) / chart.pxPerDeg - (starRight - right))).toBeLessThan(0.1)
        expect(Math.abs((chart.target.y - star.y) / chart.pxPerDeg - (starUp - up))).toBeLessThan(0.1)
        compared++
      }
    }
    expect(compared).toBeGreaterThan(300)
  })

  it('has room for every word around it, in the language of the longest words too', () => {
    let measured = 0
    for (const { object, at, site } of everyFewth())
      for (const words of [ENGLISH, GERMAN]) {
        const { subject } = drawn({ key: object.key, at, site })
        for (const { text, left, right } of wordsAround(finderChart(subject, words).svg)) {
          expect(left, text).toBeGreaterThanOrEqual(0)
          expect(right, text).toBeLessThanOrEqual(420)
          measured++
        }
      }
    expect(measured).toBeGreaterThan(500)
  })

  it('has up what is higher, and right what is farther round the compass', () => {
    const { subject, chart } = drawn({ key: 'm42', at: new Date('2027-01-12T20:00:00Z') })
    const directionOf = (key: string) => subject.stars.find((star) => star.key === key)?.direction
    const [alnitak, rigel] = ['hip26727', 'hip24436'].map((key) => chart.stars.find((star) => star.key === key))
    expect(directionOf('hip26727')?.altitudeDeg).toBeGreaterThan(directionOf('hip24436')?.altitudeDeg ?? 90)
    expect(directionOf('hip24436')?.azimuthDeg).toBeGreaterThan(directionOf('hip26727')?.azimuthDeg ?? 360)
    expect(alnitak?.y).toBeLessThan(chart.target.y)
    expect(alnitak?.x).toBeLessThan(chart.target.x)
    if (rigel) expect(rigel.x).toBeGreaterThan(chart.target.x)
    expect(chart.notes.join(' ')).toContain('From Alnitak go 3½ degrees toward 5 o’clock: half a finder field.')
  })

  it('has both fields in scale with the stars beside them to one per cent', () => {
    for (const { object, at, site } of everyFewth()) {
      const { subject, chart } = drawn({ key: object.key, at, site })
      if (subject.way.kind === 'eyes') continue
      const here = subject.target.direction
      const scales = chart.stars.flatMap((star) => {
        const there = subject.stars.find(({ key }) => key === star.key)?.direction
        if (there === undefined) return []
        const apart = separationDeg(here.azimuthDeg, here.altitudeDeg, there.azimuthDeg, there.altitudeDeg)
        const isNear = apart > 0.5 && apart < 3
        return isNear ? [Math.hypot(star.x - chart.target.x, star.y - chart.target.y) / apart] : []
      })
      for (const pxPerDeg of scales) {
        expect((chart.finderField?.radiusPx ?? 0) / (2.5 * pxPerDeg)).toBeCloseTo(1, 2)
        expect((chart.mainField?.radiusPx ?? 0) / (0.5 * pxPerDeg)).toBeCloseTo(1, 2)
      }
    }
  })

  it('keeps names apart and inside, and shows sixty stars at most, however long a name is', () => {
    const long = { name: 'A very long name of a nebula that somebody wrote out in full' }
    const charts = [
      ...everyFewth().map(({ object, at, site }) => drawn({ key: object.key, at, site }).chart),
      drawn({ key: 'm57' }, { target: { ...drawn({ key: 'm57' }).subject.target, ...long } }).chart,
    ]
    for (const chart of charts) {
      expect(chart.stars.length).toBeLessThanOrEqual(60)
      expect(chart.labels.length).toBeGreaterThan(0)
      expect(overlapping(chart)).toBe(false)
      for (const { left, right } of chart.labels) {
        expect(left).toBeGreaterThan(22)
        expect(right).toBeLessThan(398)
      }
    }
    expect(charts.at(-1)?.svg).toContain('somebody wrote')
  })

  it('says the way, how to hold the page, when it holds, and how long a fist is', () => {
    const { chart } = drawn({ key: 'm57' })
    expect(chart.notes).toEqual([
      'Face south-west and begin at Vega, the brightest star of Lyra.',
      'From Vega go 6 degrees toward 8 o’clock, one finder field, to Sheliak.',
      'From Sheliak go 1 degree toward 9 o’clock: less than half a finder field. You are there.',
      '12 o’clock is up, toward overhead.',
      'The ring is what the finder shows, 5 degrees wide. The hatched disc is what the telescope shows.',
      'In a straight finder this stands on its head: turn the page round.',
    ])
    for (const text of ['12 September, 21:30, facing south-west', '12: toward overhead', '5 degrees: half a fist'])
      expect(chart.svg).toContain(text)
    expect(chart.svg).toContain('id="card-1-finder"')
    expect(chart.svg).not.toMatch(/style=|opacity|#[0-9a-f]{3}/i)
  })

  it('points with fists to what bare eyes see, and has a sentence for every reason against', () => {
    const { chart } = drawn({ key: 'jupiter', at: new Date('2027-03-12T20:00:00Z') })
    expect(chart.notes).toEqual(['You see it with bare eyes: the bright one in the south-east, 5½ fists up.'])
    expect([chart.finderField, chart.mainField, chart.hops]).toEqual([null, null, []])
    const why = (cause: NoWay['cause']) => noWayText(cause, RING_NIGHT, 'Europe/Berlin', ENGLISH)
    const said = (['set', 'low', 'skyline', 'star'] as const).map((code) => why({ code }))
    expect(new Set(said).size).toBe(4)
    for (const sentence of said) expect(sentence).toContain('at 21:30')
    expect(why({ code: 'skyline', name: 'oak' })).toContain('oak')
  })

  it('is as high as it is asked to be, with all of the way and the finder field on it, true to scale', () => {
    for (const { object, at, site } of everyFewth()) {
      const { subject, chart } = drawn({ key: object.key, at, site }, { heightPx: 270 })
      expect(chart.svg).toContain('viewBox="0 0 420 270"')
      expect(chart.heightPx).toBe(270)
      expect(overlapping(chart)).toBe(false)
      const keys = subject.way.kind === 'hops' ? subject.way.hops.map(({ from }) => from.key) : []
      expect(keys.filter((key) => !chart.stars.some((star) => star.key === key))).toEqual([])
      expect(chart.notes.join(' ')).not.toContain('12 o’clock is up')
      const { target, finderField } = chart
      if (finderField === null) continue
      expect(Math.abs(finderField.radiusPx / (2.5 * chart.pxPerDeg) - 1)).toBeLessThan(0.05)
      expect(target.y - finderField.radiusPx).toBeGreaterThan(56)
      expect(target.y + finderField.radiusPx).toBeLessThan(240)
    }
  })

  it('measures by a fist, half of one or a thumb, whichever has room below the map', () => {
    const fields = [
      [1.5, '2 degrees: a thumb'],
      [5, '5 degrees: half a fist'],
      [12, '10 degrees: a fist'],
    ] as const
    for (const [finderFieldDeg, text] of fields)
      expect(drawn({ key: 'm15', finder: finder('straight', 8) }, { finderFieldDeg }).chart.svg).toContain(text)
  })

  it("draws the ring of the telescope's own finder, and says which way round it shows the sky", () => {
    const unknown = drawn({ key: 'm57' })
    const said = (kind: Finder['kind'], fieldDeg: number | null) => {
      const { subject, chart } = drawn({ key: 'm57', finder: finder(kind, fieldDeg) })
      return [subject.finderFieldDeg, chart.notes.at(-1)]
    }
    expect(unknown.subject.finderFieldDeg).toBe(5)
    expect(said('straight', 7)).toEqual([7, 'This finder shows it upside down: turn the page round.'])
    expect(said('right-angle', 6.5)).toEqual([6.5, 'This finder shows it upright, left and right changed over.'])
    expect(said('red-dot', 3)[0]).toBe(5)
    expect(said('straight', null)[0]).toBe(5)
    expect(said('none', null)).toEqual([5, unknown.chart.notes.at(-1)])
    const wide = drawn({ key: 'm57', finder: finder('straight', 7) }).chart
    expect((wide.finderField?.radiusPx ?? 0) / wide.pxPerDeg).toBeCloseTo(3.5, 1)
  })

  it('escapes what people call their things', () => {
    const { subject } = drawn({ key: 'm57' })
    const { svg } = finderChart({ ...subject, target: { ...subject.target, name: '<b>&' } }, ENGLISH)
    expect(svg).toContain('&lt;b&gt;&amp;')
    expect(svg).not.toContain('<b>')
  })

  it('is chosen and drawn in less than 20 ms', () => {
    const times = Array.from({ length: 30 }, () => {
      const from = process.hrtime.bigint()
      drawn({ key: 'ngc7662', at: new Date('2026-10-12T20:00:00Z') })
      return Number(process.hrtime.bigint() - from) / 1e6
    })
    expect(Math.min(...times)).toBeLessThan(20)
  })
})

const overlapping = ({ labels }: FinderChart): boolean =>
  labels.some((a, i) =>
    labels.slice(i + 1).some((b) => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom),
  )
