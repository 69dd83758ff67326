import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { type SkyChart, skyChart } from '../../server/drawings/sky-chart.ts'
import { wrap180 } from '../../server/sky/angles.ts'
import type { Night } from '../../server/tours/night.ts'
import { demoNight, southernNight } from '../support/demo-night.ts'
import { SLOW_MS } from '../support/desk-folder.ts'
import { generatedNight } from '../support/generated-nights.ts'
import { ENGLISH } from '../support/page-data.ts'
import { chartSource } from '../support/sky-chart-data.ts'

let source: ReturnType<typeof chartSource>
beforeAll(() => {
  source = chartSource()
}, SLOW_MS)
afterAll(() => source.close())

const NORTH_AT = new Date('2026-12-17T18:00:00Z')
const SOUTH_AT = new Date('2027-07-10T10:30:00Z')
const KEYS = ['moon', 'jupiter', 'saturn', 'm45', 'm42', 'm31', 'm13', 'ngc5139', 'ngc4755', 'm57', 'm44', 'ngc869']
const chartOf = (night: Night, at: Date, keys: readonly string[] = KEYS): SkyChart =>
  skyChart(source.subject(night, at, keys), ENGLISH)

/** Pairs of words that touch each other, and words that touch the ring of a target. */
function collisions({ labels, targets }: SkyChart): string[] {
  const touching: string[] = []
  labels.forEach((one, index) => {
    for (const other of labels.slice(index + 1))
      if (
        one.box.left < other.box.right &&
        other.box.left < one.box.right &&
        one.box.top < other.box.bottom &&
        other.box.top < one.box.bottom
      )
        touching.push(`${one.text} on ${other.text}`)
    for (const { number, x, y, radiusPx } of targets)
      if (
        x + radiusPx > one.box.left &&
        x - radiusPx < one.box.right &&
        y + radiusPx > one.box.top &&
        y - radiusPx < one.box.bottom
      )
        touching.push(`${one.text} on ring ${number}`)
  })
  return touching
}

const NIGHTS: readonly (readonly [string, Night, Date])[] = [
  ['the northern demo night', demoNight, NORTH_AT],
  ['the southern demo night', southernNight, SOUTH_AT],
  ...Array.from({ length: 12 }, (_, number) => {
    const night = generatedNight(number)
    return [`generated night ${number}`, night, new Date(`${night.date}T${night.opens}:00Z`)] as const
  }),
]

describe('the words of a chart of the whole sky', () => {
  it.each(NIGHTS)('of %s do not touch each other or a target', (_name, night, at) => {
    const chart = chartOf(night, at)
    expect(collisions(chart)).toEqual([])
    expect(chart.targets.filter(({ label }) => label === null)).toEqual([])
    expect(chart.labels.map(({ text }) => text)).toContain('overhead')
  })

  it('number the targets in the order of their first showing', () => {
    const { targets, labels } = chartOf(demoNight, NORTH_AT, ['moon', 'saturn', 'moon', 'm45'])
    expect(targets.map(({ number }) => number)).toEqual([1, 2, 3])
    expect(labels.map(({ text }) => text)).toEqual(expect.arrayContaining(['1 Moon', '2 Saturn', '3']))
  })

  it('find room for forty targets', () => {
    const keys = source.objects.outreach().slice(0, 80)
    const chart = chartOf(
      demoNight,
      NORTH_AT,
      keys.map(({ key }) => key),
    )
    expect(chart.targets.length).toBeGreaterThan(30)
    expect(collisions(chart)).toEqual([])
    expect(chart.targets.filter(({ label }) => label === null)).toEqual([])
  })

  it('say what is below the horizon, which is left out, and what is behind something', () => {
    const { targets, notes } = chartOf(demoNight, NORTH_AT, ['saturn', 'ngc5139', 'm42'])
    expect(targets.map(({ number }) => number)).toEqual([1, 3])
    expect(notes.join(' ')).toMatch(/Below the horizon at this hour and so not drawn: 2 Omega Centauri\./)
    expect(notes.join(' ')).toMatch(/Behind trees or roofs at this hour: 3 Orion Nebula\./)
  })

  it('name the constellations of the targets before others', () => {
    const names = chartOf(demoNight, NORTH_AT, ['m45', 'm31']).labels.map(({ text }) => text)
    expect(names).toEqual(expect.arrayContaining(['Taurus', 'Andromeda', 'Pegasus', 'Cassiopeia']))
    expect(names.indexOf('Taurus')).toBeLessThan(names.indexOf('Pegasus'))
  })

  it('name what stands along the horizon, each free of its neighbours', () => {
    const { rimNames } = chartOf(demoNight, NORTH_AT)
    expect(rimNames.map(({ text }) => text)).toEqual(expect.arrayContaining(['oak', 'gym roof']))
    rimNames.forEach((one, index) => {
      for (const other of rimNames.slice(index + 1))
        expect(Math.abs(wrap180(one.azimuthDeg - other.azimuthDeg))).toBeGreaterThan(one.halfDeg + other.halfDeg)
    })
  })

  it('stay a chart on a night of the polar summer', () => {
    const site = { ...demoNight.site, latitudeDeg: 68, longitudeDeg: 20, horizon: [] }
    const chart = chartOf({ ...demoNight, site }, new Date('2027-06-20T22:40:00Z'), [])
    expect(chart.stars).toEqual([])
    expect(chart.svg).toContain('too bright for stars')
    expect(chart.labels.map(({ text }) => text)).toEqual(expect.arrayContaining(['Sun', 'overhead']))
    expect(chart.notes.join(' ')).toContain('Nothing is on the programme')
  })

  it('say date, hour, all eight points and how to hold it, in ink alone', () => {
    const { svg } = chartOf(demoNight, NORTH_AT)
    expect(svg).toContain('The sky on 17 December at 19:00')
    for (const point of ['north', 'north-east', 'east', 'south-east', 'south', 'south-west', 'west', 'north-west'])
      expect(svg).toContain(`>${point}</textPath>`)
    expect(svg).toContain('Hold the chart over your head')
    expect(svg).not.toMatch(/NaN|opacity|style=|#[0-9a-f]{3,6}"|undefined/)
    expect([...svg.matchAll(/font-size="(\d+)"/g)].every(([, size]) => Number(size) >= 22)).toBe(true)
  })

  it('keep two charts on one page apart', () => {
    const subject = source.subject(demoNight, NORTH_AT, KEYS)
    const ids = (svg: string) => [...svg.matchAll(/ id="([^"]+)"/g)].map(([, id]) => id)
    const [one, other] = [skyChart(subject, ENGLISH), skyChart({ ...subject, idPrefix: 'later' }, ENGLISH)]
    expect(ids(one.svg).length).toBeGreaterThan(8)
    expect(new Set([...ids(one.svg), ...ids(other.svg)]).size).toBe(2 * ids(one.svg).length)
  })
})
