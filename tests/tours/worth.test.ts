import { describe, expect, it } from 'vitest'
import { eyepieceHeight, isForChair, isForChild } from '../../server/tours/eyepiece-height.ts'
import { facesAt } from '../../server/tours/faces.ts'
import { movingMin } from '../../server/tours/moving.ts'
import { subjectOf } from '../../server/tours/subject.ts'
import { ceilingCost, comfortOf, fitOf, lownessAt, steadinessAt, worthOf } from '../../server/tours/worth.ts'
import { demoNight } from '../support/demo-night.ts'
import { showObject } from '../support/show-objects.ts'

const telescopes = demoNight.stations.flatMap(({ telescope }) => (telescope === null ? [] : [telescope]))
const [low, , big] = telescopes
const [lowTube, bigTube] = [low?.tubes[0], big?.tubes[0]]
if (!low || !big || !lowTube || !bigTube) throw new Error('The demo row is short of a telescope')
const family = { adults: 10, children: 10, seated: 2 }

describe('the eyepiece of a telescope', () => {
  it('comes down to children and chairs at a low refractor, and rises with the tube of a reflector', () => {
    const height = eyepieceHeight(low, lowTube, 45)
    expect(isForChild(height)).toBe(true)
    expect(isForChair(height, low)).toBe(true)
    expect(eyepieceHeight(big, bigTube, 70).lowCm).toBeGreaterThan(eyepieceHeight(big, bigTube, 20).lowCm)
  })

  it('is out of reach from a chair where the legs are in the way', () => {
    expect(isForChair(eyepieceHeight(low, lowTube, 45), { chairReach: 'no' })).toBe(false)
  })
})

describe('the worth of a look', () => {
  it('is the product of factors that are kept apart', () => {
    const object = showObject({ kind: 'globular', appeal: 0.5 })
    const place = { telescope: low, tubes: [lowTube], altitudeDeg: 25, people: family, isClose: false }
    const worth = worthOf({
      object,
      ...place,
      chance: 0.8,
      view: 0.6,
      smallerView: null,
      bigness: 0,
      isDriftBeside: false,
    })
    const { chance, view, appeal, steadiness, lowness, ceiling, comfort, fit } = worth
    expect(worth.value).toBeCloseTo(chance * view * appeal ** 2 * steadiness * lowness * ceiling * comfort * fit, 12)
    expect(lowness).toBeCloseTo(0.9, 9)
  })

  it('loses to unsteady air and to a low place as altitude falls', () => {
    expect([50, 40, 20, 12, 5].map(steadinessAt)).toEqual([1, 1, 0.5, 0.3, 0.3])
    expect([40, 30, 20, 12].map(lownessAt)).toEqual([1, 1, 0.8, 0.5])
  })

  it('pays for the last ten degrees below the ceiling on a mount that turns about the vertical', () => {
    expect(ceilingCost({ mount: 'altaz-hand', ceilingDeg: 80 }, 70)).toBe(1)
    expect(ceilingCost({ mount: 'altaz-driven', ceilingDeg: 80 }, 80)).toBe(0.5)
    expect(ceilingCost({ mount: 'equatorial', ceilingDeg: 80 }, 80)).toBe(1)
  })

  it('is whole only where children and seated visitors reach the eyepiece', () => {
    expect(comfortOf(low, lowTube, 45, family)).toBe(1)
    expect(comfortOf(big, bigTube, 75, family)).toBeLessThan(1)
    expect(comfortOf(big, bigTube, 75, { adults: 0, children: 0, seated: 0 })).toBe(1)
  })

  it('rises with the telescope for a glow, and falls for what a smaller one shows as well', () => {
    const large = { view: 0.6, smallerView: 0.6, bigness: 1, isDriftBeside: false }
    expect(fitOf('planetary', large)).toBe(2)
    expect(fitOf('globular', { ...large, bigness: 0.5 })).toBe(1.5)
    expect(fitOf('double', large)).toBeCloseTo(0.2, 9)
    expect(fitOf('open-cluster', { ...large, smallerView: 0.3 })).toBe(1)
    expect(fitOf('open-cluster', { ...large, smallerView: null, bigness: 0 })).toBe(1)
  })

  it('halves a planet that drifts by hand while another telescope would follow it', () => {
    const byHand = { view: 0.8, smallerView: 0.8, bigness: 1, isDriftBeside: true }
    expect(fitOf('planet', byHand)).toBe(0.5)
    expect(fitOf('planet', { ...byHand, isDriftBeside: false })).toBe(1)
    expect(fitOf('globular', byHand)).toBe(2)
  })
})

describe('moving a telescope', () => {
  it('costs more by hand, for a faint thing and with the distance', () => {
    expect(movingMin('altaz-driven', 'globular', 90)).toBe(2)
    expect(movingMin('altaz-hand', 'globular', 60)).toBe(5)
    expect(movingMin('altaz-hand', 'moon', 60)).toBe(2)
  })
})

describe('what the sight floor is told of an object', () => {
  const none = {
    looks: {},
    rings: { majorArcsec: 40, minorArcsec: 8 },
    faces: facesAt(new Date('2026-12-17T19:00:00Z')),
  }

  it('is its kind with the values of its row', () => {
    const cluster = showObject({ kind: 'open-cluster', magnitude: 5, majorArcmin: 28, starCount: 100 })
    expect(subjectOf(cluster, none)).toMatchObject({ kind: 'open-cluster', diameterArcmin: 28, starCount: 100 })
    const red = showObject({ kind: 'red-star', bv: 2 })
    expect(subjectOf(red, none)).toEqual({ kind: 'star', magnitude: 2, bv: 2, isRed: true })
  })

  it('is nothing for a double without its stars, a cloud without a magnitude, and a body that is not reckoned', () => {
    expect(subjectOf(showObject({ kind: 'double' }), none)).toBeNull()
    expect(subjectOf(showObject({ kind: 'nebula', magnitude: null }), none)).toBeNull()
    expect(subjectOf(showObject({ kind: 'planet', body: 'mars' }), none)).toBeNull()
  })
})
