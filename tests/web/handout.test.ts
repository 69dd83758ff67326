import { describe, expect, it } from 'vitest'
import type { Stop } from '../../server/tours/tour.ts'
import { handout } from '../../server/web/pages/handout.ts'
import { skyPiece } from '../../server/web/pages/sky.ts'
import { A_STORY, HOST, NAMES } from '../support/page-data.ts'
import { A_FULL_PRINT, AN_EMPTY_PRINT } from '../support/paper-pages.ts'

const [stop] = A_FULL_PRINT.tour.stops
if (!stop) throw new Error('The night of the tests has a stop')
const withStops = (stops: readonly Stop[], names = NAMES) =>
  handout(HOST, { ...A_FULL_PRINT, names, tour: { ...A_FULL_PRINT.tour, stops } })
const later = (minutes: number): Date => new Date(stop.startsAt.getTime() + minutes * 60_000)

describe('the handout', () => {
  it('names what may have been seen, where it stands, and when its light set out', () => {
    const [target] = handout(HOST, A_FULL_PRINT).targets
    expect(target?.name).toBe('Great cluster in Hercules')
    expect(target?.what).toBe('Globular star cluster in Hercules, at By the oak')
    expect(target?.remember).toBe('Its light set out about 23,000 years ago, when the ice reached farthest south.')
  })

  it('remembers a number of the story where the age of its light is unknown, or what to look for', () => {
    const names = { ...NAMES, show: () => undefined }
    expect(withStops([stop], names).targets[0]?.remember).toBe(A_STORY.compare)
    const bare = { ...names, story: () => ({ ...A_STORY, compare: '' }) }
    expect(withStops([stop], bare).targets[0]?.remember).toBe(A_STORY.lookFor)
  })

  it('numbers targets by their first showing as the chart does, each once', () => {
    const stops = [
      { ...stop, targetKey: 'second', startsAt: later(30) },
      { ...stop, targetKey: 'first' },
      { ...stop, targetKey: 'first', startsAt: later(60) },
    ]
    expect(withStops(stops).targets.map(({ number, name }) => `${number} ${name}`)).toEqual(['1 first', '2 second'])
  })

  it('lists all of an evening before it tells of one, and says how many had no room', () => {
    const many = Array.from({ length: 40 }, (_, k) => ({ ...stop, targetKey: `thing-${k}`, startsAt: later(k) }))
    const { targets, more } = withStops(many)
    expect(targets.length).toBeGreaterThan(12)
    expect(more).toBe(`And ${40 - targets.length} more.`)
    expect(targets.every(({ remember }) => remember === null)).toBe(true)
    expect(withStops(many.slice(0, 3)).more).toBeNull()
  })

  it('draws the sky in the middle of the public hours', () => {
    const asked: string[] = []
    const { pictures } = A_FULL_PRINT
    const sky = (at: Date) => {
      asked.push(at.toISOString())
      return pictures.sky(at)
    }
    const subject = { ...A_FULL_PRINT, pictures: { ...pictures, sky } }
    handout(HOST, subject)
    const uneven = { ...subject, night: { ...subject.night, closes: '21:50' } }
    handout(HOST, uneven)
    skyPiece(HOST, uneven)
    expect(asked).toEqual(Array(3).fill('2026-11-20T19:00:00.000Z'))
  })

  it('says what bare eyes find, when, and how sure that is', () => {
    const { byEye, moons } = handout(HOST, A_FULL_PRINT)
    expect(byEye.map(({ text }) => text)).toEqual([
      '21:10, east, 2½ fists up.',
      'from about 8 December: 17:20, south-west, 1 fist up.',
      'most around 14 December, at best 140 an hour under a really dark sky.',
    ])
    expect(moons.map(({ text }) => text)).toEqual(['20 November', '28 November', '5 December', '12 December'])
  })

  it('has room to write where nothing was planned, and no stars in a polar summer', () => {
    const { targets, more, byEye, eyesNote } = handout(HOST, AN_EMPTY_PRINT)
    expect([targets, more, byEye]).toEqual([[], null, []])
    expect(eyesNote).toContain('The Sun does not set')
  })

  it('says in a polar night that the Sun does not rise, and still what bare eyes find', () => {
    const bareEyes = { ...A_FULL_PRINT.bareEyes, sun: 'stays-down' } as const
    const { byEye, eyesNote } = handout(HOST, { ...A_FULL_PRINT, bareEyes })
    expect(eyesNote).toMatch(/^The Sun does not rise/)
    expect(byEye).toHaveLength(3)
  })
})
