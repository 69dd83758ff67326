import { describe, expect, it } from 'vitest'
import { bodyLook } from '../../server/sky/body.ts'
import { saturnRing } from '../../server/sky/saturn.ts'
import { facesAt } from '../../server/tours/faces.ts'
import { subjectOf } from '../../server/tours/subject.ts'
import { FOR_TELESCOPES } from '../support/evenings.ts'
import { showObject } from '../support/show-objects.ts'

const PLACE = { latitudeDeg: 47.4, longitudeDeg: 8.6, heightM: 450 }
const objects = FOR_TELESCOPES
const listed = (key: string) => objects.find((object) => object.key === key) ?? showObject({ key: 'none' })

function skyAt(at: Date) {
  const looks = Object.fromEntries(
    (['moon', 'jupiter', 'saturn', 'venus'] as const).map((key) => [key, bodyLook(key, at, PLACE)]),
  )
  return { looks, rings: saturnRing(at), faces: facesAt(at) }
}
const halfMoonNight = skyAt(new Date('2026-12-17T20:00:00Z'))

describe('what the sight floor is told', () => {
  it('of the Moon has what is lit well that evening, best first', () => {
    const moon = subjectOf(listed('moon'), halfMoonNight)
    if (moon?.kind !== 'moon') throw new Error('no Moon')
    expect(moon.features?.map(({ name }) => name)).toContain('Straight Wall')
    expect(moon.features?.[0]?.worth).toBeGreaterThan(0.95)
    const bare = subjectOf({ ...listed('moon'), features: [] }, halfMoonNight)
    expect(bare).not.toHaveProperty('features')
  })

  it('of Jupiter has its four moons where they stand, of Saturn Titan, of Venus none', () => {
    const jupiter = subjectOf(listed('jupiter'), halfMoonNight)
    if (jupiter?.kind !== 'planet') throw new Error('no Jupiter')
    expect(jupiter.moons?.map(({ name }) => name)).toEqual(['Io', 'Europa', 'Ganymede', 'Callisto'])
    for (const { magnitude } of jupiter.moons ?? []) expect(Math.abs(magnitude - 5.5)).toBeLessThan(1.2)
    expect(subjectOf(listed('saturn'), halfMoonNight)).toMatchObject({ moons: [{ name: 'Titan' }] })
    expect(subjectOf(listed('venus'), halfMoonNight)).toMatchObject({ moons: [] })
  })

  it('has one of the moons before Jupiter, behind it or in its shadow in about a third of all hours', () => {
    const hours = Array.from({ length: 120 }, (_, hour) => new Date(Date.UTC(2027, 1, 1, 2 * hour)))
    const away = hours.filter((at) => {
      const jupiter = subjectOf(listed('jupiter'), skyAt(at))
      return jupiter?.kind === 'planet' && jupiter.moons?.some(({ state }) => state !== 'beside')
    })
    expect(away.length).toBeGreaterThan(24)
    expect(away.length).toBeLessThan(84)
  })

  it('of a comet entered by hand has light, coma and condensation, of a new star its light alone', () => {
    const comet = showObject({ key: 'own-comet', kind: 'comet', magnitude: 7, majorArcmin: 9, condensation: 5 })
    expect(subjectOf(comet, halfMoonNight)).toEqual({ kind: 'comet', magnitude: 7, comaArcmin: 9, condensation: 5 })
    expect(subjectOf({ ...comet, condensation: null }, halfMoonNight)).toMatchObject({ condensation: 4 })
    expect(subjectOf({ ...comet, magnitude: null }, halfMoonNight)).toBeNull()
    const nova = showObject({ key: 'own-nova', kind: 'star', magnitude: 6, bv: null })
    expect(subjectOf(nova, halfMoonNight)).toEqual({ kind: 'star', magnitude: 6, bv: null, isRed: false })
  })

  it('has the heart of the Andromeda Galaxy, the branch of M13 and the stars of the Pleiades from the list', () => {
    expect(subjectOf(listed('m31'), halfMoonNight)).toMatchObject({ core: { magnitude: 6.9, diameterArcmin: 3 } })
    expect(subjectOf(listed('m33'), halfMoonNight)).toMatchObject({ core: null })
    expect(subjectOf(listed('m13'), halfMoonNight)).toMatchObject({ branchMag: 14.9 })
    const pleiades = subjectOf(listed('m45'), halfMoonNight)
    expect(pleiades?.kind === 'open-cluster' && pleiades.starMags?.[0]).toBe(2.85)
  })

  it('sees two colours in Albireo and one in Mizar', () => {
    expect(subjectOf(listed('hip95947'), halfMoonNight)).toMatchObject({ hasColourContrast: true })
    expect(subjectOf(listed('hip65378'), halfMoonNight)).toMatchObject({ hasColourContrast: false })
  })
})
