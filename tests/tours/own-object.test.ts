import { describe, expect, it } from 'vitest'
import { isOwnKey, ownObject, ownObjectProblems } from '../../server/tours/own-object.ts'
import { A_COMET_DRAFT, A_NOVA_DRAFT } from '../support/own-object-data.ts'

const wrong = (more: object, draft: object = A_COMET_DRAFT) =>
  ownObjectProblems({ ...draft, ...more }).map(({ field, key }) => [field, key])

describe('a comet or star as a host types it in', () => {
  it('is fine as it is in the sky', () => {
    expect(ownObjectProblems(A_COMET_DRAFT)).toEqual([])
    expect(ownObjectProblems(A_NOVA_DRAFT)).toEqual([])
  })

  it('stands somewhere in the sky: right ascension from 0 to less than 360, declination from pole to pole', () => {
    expect(wrong({ raDeg: 360 })).toEqual([['raDeg', 'problem.range-below']])
    expect(wrong({ raDeg: -0.1 })).toEqual([['raDeg', 'problem.range-below']])
    expect(wrong({ decDeg: 90.1 })).toEqual([['decDeg', 'problem.range']])
    expect(wrong({ decDeg: Number.NaN })).toEqual([['decDeg', 'problem.type']])
    expect(wrong({ raDeg: 0, decDeg: -90 })).toEqual([])
  })

  it('has a coma and a condensation of ten steps when it is a comet, and neither when it is a star', () => {
    expect(wrong({ comaArcmin: undefined, condensation: undefined })).toEqual([
      ['comaArcmin', 'problem.required'],
      ['condensation', 'problem.required'],
    ])
    expect(wrong({ condensation: 10 })).toEqual([['condensation', 'problem.range']])
    expect(wrong({ condensation: 4.5 }).map(([field]) => field)).toEqual(['condensation'])
    expect(wrong({ comaArcmin: 0 })).toEqual([['comaArcmin', 'problem.range']])
    expect(wrong({ comaArcmin: 5 }, A_NOVA_DRAFT)).toEqual([['comaArcmin', 'problem.star-with-coma']])
  })

  it('says why it delights, in one line', () => {
    expect(wrong({ appeal: 1.1 })).toEqual([['appeal', 'problem.range']])
    expect(wrong({ appealReason: '' })).toEqual([['appealReason', 'problem.too-short']])
    expect(wrong({ appealReason: '   ' })).toEqual([['appealReason', 'problem.too-short']])
    expect(wrong({ appealReason: 'one\ntwo' })).toEqual([['appealReason', 'problem.one-line']])
    expect(wrong({ name: 'x'.repeat(61) })).toEqual([['name', 'problem.too-long']])
  })

  it('is of no third kind', () => {
    expect(wrong({ kind: 'galaxy' })).toEqual([['kind', 'problem.choice']])
    expect(ownObjectProblems('a comet')).toEqual([
      { field: '', key: 'problem.type-object', values: { type: 'object' } },
    ])
  })
})

describe('the object that it becomes', () => {
  it('lies in the constellation around its place and says of every value who gave it', () => {
    const comet = ownObject({ ...A_COMET_DRAFT, name: ' Comet Häberli ' }, 'x1')
    expect(comet).toMatchObject({ key: 'own-x1', name: 'Comet Häberli', constellation: 'And', majorArcmin: 12 })
    expect(isOwnKey(comet.key)).toBe(true)
    expect(isOwnKey('m13')).toBe(false)
    expect(new Set(Object.values(comet.sources))).toEqual(new Set(['entered by the host']))
    expect(Object.keys(comet.sources)).toContain('condensation')
  })
})
