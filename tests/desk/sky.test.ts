import { afterAll, describe, expect, it } from 'vitest'
import { DEFAULT_CONDITIONS } from '../../server/sight/conditions.ts'
import { separationDeg } from '../../server/sky/angles.ts'
import { starOfDate } from '../../server/sky/star.ts'
import { freshDesk } from '../support/desk-folder.ts'

const { desk, close } = await freshDesk()
afterAll(close)

const PLACE = { latitudeDeg: 47.4, longitudeDeg: 8.6, heightM: 450 }
const AT = new Date('2026-12-17T17:00:00Z')
const fault = (work: () => unknown): unknown => {
  try {
    work()
  } catch (error) {
    return error
  }
  throw new Error('It was answered')
}

describe('where things stand', () => {
  it('answers bodies with their look and fixed things with their place, in the order asked', () => {
    const [moon, saturn, pleiades, sun] = desk.sky.places(AT, PLACE, ['moon', 'saturn', 'm45', 'sun'])
    expect(moon).toMatchObject({ key: 'moon', look: { key: 'moon' }, ringTiltDeg: null })
    expect(saturn?.ringTiltDeg).not.toBeNull()
    expect(pleiades).toMatchObject({ key: 'm45', look: null, ringTiltDeg: null })
    expect(pleiades?.magnitude).not.toBeNull()
    expect(sun).toMatchObject({ airmass: null })
    expect(moon?.apparentAltitudeDeg).toBeGreaterThan(moon?.altitudeDeg ?? 90)
  })

  it('puts the pole star within a degree of the pole', () => {
    const [pole] = desk.sky.places(AT, PLACE, ['hip11767'])
    expect(Math.abs((pole?.altitudeDeg ?? 0) - PLACE.latitudeDeg)).toBeLessThan(1)
  })

  // From memory: 61 Cygni A (HIP 104214) moves 5.28 arcseconds a year, so 317 arcseconds in the sixty years from 2000.
  it('moves a star of the charts along its own way over the years', () => {
    const at = new Date(Date.UTC(2060, 0, 1))
    const { raDeg, decDeg } = desk.objects.find('hip104214').object
    const resting = starOfDate(
      { raDeg: raDeg ?? 0, decDeg: decDeg ?? 0, pmRaMasYr: 0, pmDecMasYr: 0, parallaxMas: 0 },
      at,
    )
    const [moving] = desk.sky.places(at, PLACE, ['hip104214'])
    const apartDeg = separationDeg(resting.raDeg, resting.decDeg, moving?.raDeg ?? 0, moving?.decDeg ?? 0)
    expect(Math.abs(apartDeg * 3600 - 317)).toBeLessThan(2)
  })

  it('knows nothing of a key that nobody has', () => {
    expect(fault(() => desk.sky.places(AT, PLACE, ['nothing-of-the-kind']))).toMatchObject({ key: 'fault.no-object' })
  })
})

describe('an evening', () => {
  it('has its Moon at the quarter on the demo night, waxing', () => {
    const evening = desk.sky.evening('2026-12-17', PLACE, 'Europe/Zurich')
    expect(evening.moon.litFraction).toBeCloseTo(0.54, 1)
    expect(evening.isMoonWaxing).toBe(true)
    expect(evening.sunsetAt?.toISOString()).toMatch(/^2026-12-17T15:3/)
  })

  it('has a waning Moon a fortnight later', () => {
    expect(desk.sky.evening('2026-12-31', PLACE, 'Europe/Zurich').isMoonWaxing).toBe(false)
  })

  it('is refused on a day or in a zone that does not exist', () => {
    expect(fault(() => desk.sky.evening('2026-02-30', PLACE, 'Europe/Zurich'))).toMatchObject({
      problems: [{ field: 'date' }],
    })
    expect(fault(() => desk.sky.evening('2026-02-20', PLACE, 'Mars/Base'))).toMatchObject({
      problems: [{ field: 'zone' }],
    })
  })
})

describe('what a newcomer would see', () => {
  const optics = { apertureMm: 150, focalLengthMm: 750, obstruction: 0.3, transmission: 0.8 }
  const ocular = { focalLengthMm: 25, apparentFieldDeg: 60, fieldStopMm: null }
  const ask = (objectKey: string, at = AT) =>
    desk.sight.ask({ objectKey, at, place: PLACE, optics, ocular, conditions: DEFAULT_CONDITIONS })

  it('is everything of the Moon and the Pleiades on a winter evening', () => {
    expect(ask('moon').chance).toBeGreaterThan(0.9)
    expect(ask('m45').chance).toBeGreaterThan(0.9)
  })

  it('is the same under any name of the thing', () => expect(ask('M 45')).toEqual(ask('m45')))

  it('is told with the light of the Moon while the Moon is up, and without it afterwards', () => {
    const [early, late] = [ask('m33'), ask('m33', new Date('2026-12-18T00:30:00Z'))]
    expect(early.sky.moonCd).toBeGreaterThan(0)
    expect(late.sky.moonCd).toBe(0)
  })

  it('is a bright star that is on no list', () => expect(ask('hip104214').chance).toBeGreaterThan(0.9))

  it('is not to be had for a thing that nobody has', () => {
    expect(fault(() => ask('nothing-of-the-kind'))).toMatchObject({ code: 'not-found' })
  })
})

it('the laptop is asked for its health in one answer', () => {
  expect(desk.health()).toMatchObject({
    version: '0.0.0',
    commit: 'test',
    isRehearsal: true,
    sqlite: { journalMode: 'wal', synchronous: 2 },
  })
  expect(desk.health().counts.outreach).toBeGreaterThan(100)
})
