import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { backdropOf } from '../../server/sight/backdrop.ts'
import { DEFAULT_CONDITIONS } from '../../server/sight/conditions.ts'
import { viewThrough } from '../../server/sight/optics.ts'
import { highestPower } from '../../server/sight/power.ts'
import { bestSetup, type Moment } from '../../server/tours/setup-choice.ts'
import { nearestSkyClass, SKY_CLASSES } from '../../server/tours/site.ts'
import { ocularsOf, type Telescope } from '../../server/tours/telescope.ts'
import { A_TELESCOPE } from '../support/field-data.ts'
import { darkNight, things } from '../support/sight-data.ts'

const [tube] = A_TELESCOPE.tubes
if (!tube) throw new Error('The telescope of the tests has a tube')
const eyepiece = (id: string, focalLengthMm: number, fieldStopMm: number | null = null) => ({
  id,
  name: `${focalLengthMm} mm`,
  focalLengthMm,
  apparentFieldDeg: 52,
  fieldStopMm,
})
const barlow = { id: 'b', name: '2x Barlow', factor: 2 }
const reducer = { id: 'r', name: '0.5x reducer', factor: 0.5 }
const kit = (more: Partial<Telescope>): Telescope => ({ ...A_TELESCOPE, mount: 'altaz-driven', ...more })

describe('what can be put into a tube', () => {
  it('is each eyepiece alone, then each behind each Barlow or reducer, under an id of its own', () => {
    const oculars = ocularsOf(kit({ eyepieces: [eyepiece('e', 25), eyepiece('f', 10)], factors: [barlow, reducer] }))
    expect(oculars.map(({ id }) => id)).toEqual(['e', 'f', 'e*b', 'f*b', 'e*r', 'f*r'])
    expect(oculars[3]).toMatchObject({
      focalLengthMm: 5,
      label: { code: 'ocular.behind', values: { eyepiece: '10 mm', factor: '2x Barlow' } },
    })
    expect(oculars[0]?.label).toEqual({ code: 'ocular.alone', values: { eyepiece: '25 mm' } })
  })

  it('doubles the power and halves the true field behind a Barlow of 2', () => {
    for (const fieldStopMm of [null, 22]) {
      const [alone, behind] = ocularsOf(kit({ eyepieces: [eyepiece('e', 25, fieldStopMm)], factors: [barlow] }))
      if (!alone || !behind) throw new Error('One eyepiece and one Barlow are two')
      const [wide, close] = [viewThrough(tube, alone), viewThrough(tube, behind)]
      expect(close.powerX).toBeCloseTo(2 * wide.powerX, 9)
      expect(close.exitPupilMm).toBeCloseTo(wide.exitPupilMm / 2, 9)
      expect(close.trueFieldDeg / wide.trueFieldDeg).toBeCloseTo(0.5, 4)
    }
  })

  it('has a power that grows with the factor and a field that shrinks by it, whatever the factor', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.3, max: 5, noNaN: true }),
        fc.double({ min: 2, max: 60, noNaN: true }),
        (factor, mm) => {
          const [alone, behind] = ocularsOf({ eyepieces: [eyepiece('e', mm)], factors: [{ ...barlow, factor }] })
          if (!alone || !behind) throw new Error('One eyepiece and one Barlow are two')
          const [wide, close] = [viewThrough(tube, alone), viewThrough(tube, behind)]
          expect(close.powerX / wide.powerX).toBeCloseTo(factor, 6)
          expect(wide.trueFieldDeg / close.trueFieldDeg).toBeCloseTo(factor, 6)
        },
      ),
    )
  })
})

describe('the tube and eyepiece for a planet', () => {
  const dark: Moment = { step: 0, geometry: darkNight, backdrop: backdropOf(darkNight, DEFAULT_CONDITIONS) }
  const chosen = (telescope: Telescope) => bestSetup(telescope, things.saturn, 'whole', dark, DEFAULT_CONDITIONS)?.setup

  it('is the one behind the Barlow where the eyepiece alone is weak', () => {
    expect(chosen(kit({ eyepieces: [eyepiece('e', 25)], factors: [] }))).toMatchObject({ eyepieceId: 'e', powerX: 48 })
    const setup = chosen(kit({ eyepieces: [eyepiece('e', 25)], factors: [barlow] }))
    expect(setup).toMatchObject({ eyepieceId: 'e*b', powerX: 96, trueFieldDeg: expect.closeTo(52 / 96, 9) })
  })

  it('is never one beyond the highest useful power', () => {
    const strong = kit({ eyepieces: [eyepiece('e', 10)], factors: [{ ...barlow, factor: 5 }] })
    expect(viewThrough(tube, ocularsOf(strong)[1] ?? eyepiece('e', 1)).powerX).toBeGreaterThan(
      highestPower(tube, DEFAULT_CONDITIONS),
    )
    expect(chosen(strong)?.eyepieceId).toBe('e')
  })

  it('is never behind a Barlow where an eyepiece alone has about that power and as wide a field', () => {
    const of = (alone: number, fieldDeg: number) => {
      const eyepieces = [eyepiece('e', 20), { ...eyepiece('f', alone), apparentFieldDeg: fieldDeg }]
      return chosen(kit({ tubes: [{ ...tube, apertureMm: 60 }], eyepieces, factors: [barlow] }))
    }
    expect(of(10, 52)).toMatchObject({ eyepieceId: 'f', powerX: 120 })
    expect(of(10.4, 52)?.eyepieceId).toBe('f')
    expect(of(11, 52)).toMatchObject({ eyepieceId: 'e*b', powerX: 120 })
    expect(of(10.4, 40)?.eyepieceId).toBe('e*b')
  })
})

describe('the class of a sky', () => {
  it('is nearest to its own value, and darker for a higher one', () => {
    expect(SKY_CLASSES).toHaveLength(9)
    expect([22, 21.1, 20, 18, 15].map(nearestSkyClass)).toEqual([1, 4, 5, 8, 9])
  })
})
