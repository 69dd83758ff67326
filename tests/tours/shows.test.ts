import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { digestOf } from '../../server/desk/tour-digest.ts'
import { limitOf } from '../../server/sight/limit.ts'
import { siteCd } from '../../server/sight/site-light.ts'
import { newsOf } from '../../server/tours/news.ts'
import { eyepieceRange, rolesOf } from '../../server/tours/roles.ts'
import { type ShownView, showsOf, usualNight } from '../../server/tours/shows.ts'
import { MOON_ARCMIN, MOON_FIELD_DEG, PLEIADES_ARCMIN, PLEIADES_FIELD_DEG } from '../../server/tours/shows-remarks.ts'
import type { Telescope } from '../../server/tours/telescope.ts'
import { A_NIGHT, A_TELESCOPE } from '../support/field-data.ts'

const NIGHT = usualNight(19.5)
const eyepiece = (focalLengthMm: number, apparentFieldDeg = 50) => ({
  id: `e${focalLengthMm}`,
  name: `${focalLengthMm} mm`,
  focalLengthMm,
  apparentFieldDeg,
  fieldStopMm: null,
})
function kit(aperture: number, focal: number, eyepieces: readonly number[], more: Partial<Telescope> = {}): Telescope {
  const tubes = A_TELESCOPE.tubes.map((tube) => ({ ...tube, apertureMm: aperture, focalLengthMm: focal }))
  return { ...A_TELESCOPE, tubes, eyepieces: eyepieces.map((mm) => eyepiece(mm)), ...more }
}
function viewOf(telescope: Telescope, night = NIGHT): ShownView {
  const shown = showsOf(telescope, night).tubes[0]?.views[0]
  if (!shown) throw new Error('A tube with an eyepiece shows something')
  return shown
}
const codesOf = (telescope: Telescope) => viewOf(telescope).remarks.map(({ code }) => code)

describe('what a telescope shows', () => {
  it('is 48 times and 62.5 arcminutes for 1200 mm with 25 mm of 50 degrees, crossed in 250 s by hand', () => {
    const { view, driftSec } = viewOf(kit(200, 1200, [25]))
    expect(view.powerX).toBe(48)
    expect(view.trueFieldDeg * 60).toBeCloseTo(62.5, 9)
    expect(view.exitPupilMm).toBeCloseTo(4.17, 2)
    expect(Math.abs((driftSec ?? 0) - 250)).toBeLessThan(1) // a degree in four minutes, as sidewalk observers count
    expect(viewOf(kit(200, 1200, [25], { mount: 'equatorial' })).driftSec).toBeNull()
  })

  it('takes the faintest star from the floor of sight, for a newcomer half way up', () => {
    const shown = viewOf(kit(200, 1200, [25]))
    const { view } = shown
    expect(shown.starMag).toBe(limitOf(view, NIGHT)(siteCd(45, 180, NIGHT), 45).starMag)
    expect(viewOf(kit(200, 1200, [25]), usualNight(21.7)).starMag).toBeGreaterThan(shown.starMag + 0.3)
  })

  it('has every eyepiece alone and behind the Barlow, the lowest power first, and the best that is not too strong', () => {
    const factors = [{ id: 'b', name: '2x Barlow', factor: 2 }]
    const [tube] = showsOf(kit(200, 1200, [25, 6], { factors }), NIGHT).tubes
    expect(tube?.views.map(({ view }) => view.powerX)).toEqual([48, 96, 200, 400])
    expect([tube?.lowestPowerX, tube?.highestPowerX]).toEqual([200 / 6, 140])
    expect(tube?.splitArcsec).toBe(tube?.views[1]?.splitArcsec)
    expect(tube?.lightGrasp).toBeCloseTo((200 / 6) ** 2 * 0.8 * (1 - 0.25 ** 2), 6)
  })

  it('needs 240 arcseconds to the eye for two stars, and at high power what tube and air part', () => {
    expect(viewOf(kit(200, 1200, [25])).splitArcsec).toBe(5)
    expect(viewOf(kit(200, 1200, [4])).splitArcsec).toBeCloseTo(2, 6) // 0.8 of an image 2.5 wide
  })

  it('says what is wrong, and what it is good for', () => {
    expect(codesOf(kit(60, 700, [4]))).toEqual(['kit.view-over-tube', 'kit.view-dim'])
    expect(codesOf(kit(200, 1200, [6]))).toEqual(['kit.view-over-air'])
    expect(codesOf(kit(130, 650, [40]))).toEqual(['kit.view-wide-pupil', 'kit.view-pleiades', 'kit.view-moon'])
    expect(codesOf(kit(200, 1200, [12]))).toEqual(['kit.view-easy', 'kit.view-planets', 'kit.view-moon-part'])
    expect(codesOf(kit(200, 1200, [25]))).toEqual(['kit.view-easy', 'kit.view-moon'])
  })

  it('frames what the list of things frames', () => {
    const row = readFileSync(join(import.meta.dirname, '../../db/catalogue/outreach/open-clusters.csv'), 'utf8')
    expect(row).toMatch(new RegExp(`^m45,Pleiades,.*,V,${PLEIADES_ARCMIN},`, 'm'))
    expect(MOON_FIELD_DEG * 60 * 0.95).toBeCloseTo(MOON_ARCMIN, 9)
    expect(PLEIADES_FIELD_DEG * 60 * 0.7).toBeCloseTo(110, 9)
  })

  it.each([
    [[4], 'kit.gap-easy', 21],
    [[25], 'kit.gap-planets', 15],
    [[25, 12], 'kit.gap-none', undefined],
  ])('names what is missing beside eyepieces of %j', (eyepieces, code, focal) => {
    const { gap } = showsOf(kit(200, 1200, eyepieces), NIGHT)
    expect([gap.code, gap.values?.focal]).toEqual([code, focal])
  })

  it('misses the whole Moon where the field is too narrow', () => {
    expect(showsOf(kit(280, 2800, [25, 20]), NIGHT).gap.code).toBe('kit.gap-moon')
  })
})

describe('whom a telescope suits', () => {
  const codes = (telescope: Telescope) => rolesOf(telescope).map(({ code }) => code.replace('kit.role-', ''))

  it('follows the height of the eyepiece: 61 cm up of a reflecting tube that stands 70 high', () => {
    const low = kit(130, 650, [25, 8], { axisLowCm: 50, axisHighCm: 70, mount: 'altaz-driven' })
    const { lowCm, highCm } = eyepieceRange(low)
    expect([lowCm, highCm]).toEqual([50 + 0.65 * 65 * 0.5, 70 + 0.65 * 65 * Math.sin((75 * Math.PI) / 180)])
    expect(codes(low)).toEqual(['children', 'seated', 'bright', 'newcomer'])
    expect(codes({ ...low, chairReach: 'no' })).toEqual(['children', 'bright', 'newcomer'])
    expect(codes({ ...low, axisLowCm: 200, axisHighCm: 220 })).toContain('step')
    expect(codes(kit(102, 1000, [25]))).not.toContain('step')
  })

  it('gives the reason in numbers', () => {
    const big = kit(250, 1250, [40, 10])
    const faint = rolesOf(big).find(({ code }) => code === 'kit.role-faint')
    expect(faint?.values).toEqual({ times: 1300 })
    const nudged = rolesOf(big).find(({ code }) => code === 'kit.role-nudged')
    expect(nudged).toMatchObject({ isCaution: true, values: { least: 100, most: 380 } })
  })

  it('counts two tubes as two looks, and does not hold a power for good that the air refuses', () => {
    const twin = kit(100, 500, [3])
    expect(codes({ ...twin, tubes: [...twin.tubes, ...twin.tubes] })).toContain('two-looks')
    expect(codes(twin)).not.toContain('bright')
  })
})

it('leaves the digest of a programme as it is when only the kit list says more', () => {
  const digest = (more: Partial<Telescope>) => {
    const stations = A_NIGHT.stations.map((station) => ({ ...station, telescope: { ...A_TELESCOPE, ...more } }))
    return digestOf('c', { ...A_NIGHT, stations }, [], [], newsOf(A_NIGHT, [], new Date('2026-11-20T18:00:00Z')))
  }
  const more = {
    note: 'x',
    inKitSince: 1998,
    isPutAway: true,
    finder: { kind: 'none', fieldDeg: null, powerX: null },
  } as const
  expect(digest(more)).toBe(digest({}))
  expect(digest({ ceilingDeg: 70 })).not.toBe(digest({}))
})
