import { describe, expect, it } from 'vitest'
import { type Light, lightsOver } from '../../server/tours/alignment-lights.ts'
import { proofOf } from '../../server/tours/alignment-proof.ts'
import { lookAlikeOf } from '../../server/tours/alignment-rivals.ts'
import { alignmentStars, centrable } from '../../server/tours/alignment-stars.ts'
import type { Night } from '../../server/tours/night.ts'
import { starColour } from '../../server/tours/star-colour.ts'
import { brightStars } from '../support/bright-stars.ts'
import { demoNight } from '../support/demo-night.ts'

const stars = brightStars()
const BODIES = [
  { key: 'moon', name: 'Moon' },
  { key: 'venus', name: 'Venus' },
  { key: 'mars', name: 'Mars' },
  { key: 'jupiter', name: 'Jupiter' },
  { key: 'saturn', name: 'Saturn' },
] as const

const light = (name: string, altitudeDeg: number, azimuthDeg: number, more: Partial<Light> = {}): Light => ({
  key: name,
  name,
  kind: 'star',
  magnitude: 1,
  colour: 'white',
  isNearPole: false,
  direction: { altitudeDeg, azimuthDeg },
  laterDirection: { altitudeDeg, azimuthDeg },
  ...more,
})
const codesOf = (star: Light, rival: Light) => lookAlikeOf(star, [star, rival])?.tell.map(({ code }) => code)

function starsAt(night: Night, at: string) {
  const when = new Date(at)
  const lights = lightsOver(stars, BODIES, when, night.site)
  return new Map(alignmentStars(centrable(lights, night, when), lights).map((star) => [star.name, star]))
}
const openNight: Night = { ...demoNight, site: { ...demoNight.site, horizon: [] } }

const star = light('Star', 40, 180)
const rivalNear = (altitudeDeg: number, azimuthDeg: number) => light('Rival', altitudeDeg, azimuthDeg)

describe('what could be taken for an alignment star', () => {
  it('is Mars, brighter and orange above Regulus, on the last evening of February 2027', () => {
    const regulus = starsAt(openNight, '2027-02-28T20:00:00Z').get('Regulus')
    const values = { name: 'Regulus', rival: 'Mars' }
    expect(regulus?.lookAlike).toMatchObject({ key: 'mars', name: 'Mars', kind: 'planet' })
    expect(regulus?.lookAlike?.tell).toEqual([
      { code: 'align.rival-planet', values },
      { code: 'align.rival-is-orange', values },
      { code: 'align.rival-higher', values },
      { code: 'align.rival-brighter', values },
    ])
    expect(starsAt(openNight, '2026-12-17T22:00:00Z').get('Regulus')?.lookAlike?.key).not.toBe('mars')
  })

  it('is the Moon only when nothing else is there, and the Moon is no brighter star', () => {
    const moon = light('Moon', 40, 183, { kind: 'moon', magnitude: -10, colour: null })
    expect(codesOf(star, moon)).toEqual(['align.rival-moon', 'align.rival-right'])
    const fainter = light('Rival', 38, 180, { magnitude: 1.8 })
    expect(lookAlikeOf(star, [star, moon, fainter])?.key).toBe('Rival')
  })

  it('stands within ten degrees and is at most a magnitude fainter', () => {
    const keyOf = (other: Light) => lookAlikeOf(star, [star, other])?.key ?? null
    expect([keyOf(rivalNear(49.9, 180)), keyOf(rivalNear(50.1, 180))]).toEqual(['Rival', null])
    const faint = (magnitude: number) => keyOf(light('Rival', 42, 180, { magnitude }))
    expect([faint(2), faint(2.1), faint(-4)]).toEqual(['Rival', null, 'Rival'])
  })

  it('is told by the side on which it stands for one who faces it, through north as well', () => {
    const north = light('Star', 40, 359)
    const sides = [
      [45, 359],
      [44, 5],
      [40, 5],
      [36, 5],
      [35, 359],
      [36, 353],
      [40, 353],
      [44, 353],
    ] as const
    expect(sides.map(([altitudeDeg, azimuthDeg]) => codesOf(north, rivalNear(altitudeDeg, azimuthDeg))?.[0])).toEqual([
      'align.rival-higher',
      'align.rival-higher-right',
      'align.rival-right',
      'align.rival-lower-right',
      'align.rival-lower',
      'align.rival-lower-left',
      'align.rival-left',
      'align.rival-higher-left',
    ])
  })

  it('is told by its colour only where anyone would see the difference', () => {
    const rival = (colour: Light['colour']) => codesOf(star, light('Rival', 42, 180, { colour }))
    expect(rival('pale-yellow')).toEqual(['align.rival-higher'])
    expect(rival('yellow')).toEqual(['align.rival-is-yellow', 'align.rival-higher'])
    expect(rival(null)).toEqual(['align.rival-higher'])
  })
})

describe('the colour of a star', () => {
  it('is what observers call it', () => {
    const colours = Object.fromEntries(stars.map(({ name, bv }) => [name, starColour(bv)]))
    expect(colours).toMatchObject({
      Rigel: 'blue-white',
      Vega: 'white',
      Procyon: 'pale-yellow',
      Capella: 'yellow',
      Arcturus: 'orange',
      Aldebaran: 'orange',
      Antares: 'orange-red',
    })
    expect(starColour(null)).toBeNull()
  })
})

describe('the third thing to turn to as proof', () => {
  const pair = [light('A', 40, 90), light('B', 40, 210)] as const

  it('is the Moon or a planet before a brighter star, the brightest of each', () => {
    const saturn = light('Saturn', 30, 150, { kind: 'planet', magnitude: 1 })
    const moon = light('Moon', 30, 155, { kind: 'moon', magnitude: -10 })
    const [plain, plainer] = [light('C', 50, 310, { magnitude: 0.5 }), light('D', 50, 320, { magnitude: 0 })]
    const keyOf = (able: readonly Light[]) => proofOf(pair, able)?.key ?? null
    expect(keyOf([...pair, plain, plainer, saturn, moon])).toBe('Moon')
    expect(keyOf([...pair, plain, plainer, saturn])).toBe('Saturn')
    expect(keyOf([...pair, plain, plainer])).toBe('D')
    expect(keyOf([...pair])).toBeNull()
  })

  it('stands thirty degrees or more from both stars', () => {
    const able = (azimuthDeg: number) => [light('Moon', 40, azimuthDeg, { kind: 'moon', magnitude: -10 })]
    expect(proofOf(pair, able(120))).toBeNull()
    expect(proofOf(pair, able(180))).toBeNull()
    expect(proofOf(pair, able(150))?.key).toBe('Moon')
  })
})
