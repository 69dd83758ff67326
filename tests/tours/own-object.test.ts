import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { facesAt } from '../../server/tours/faces.ts'
import { isAskedOf, isNeeded, KIND_FIELDS, OWN_KINDS } from '../../server/tours/own-kinds.ts'
import { isOwnKey, type OwnObjectDraft, ownKey, ownObject, tidied } from '../../server/tours/own-object.ts'
import { ownObjectProblems } from '../../server/tours/own-problems.ts'
import { subjectOf } from '../../server/tours/subject.ts'
import { isForTelescopes } from '../../server/tours/target.ts'
import {
  A_CLUSTER_DRAFT,
  A_COMET_DRAFT,
  A_DOUBLE_DRAFT,
  A_GALAXY_DRAFT,
  A_NOVA_DRAFT,
  A_PASS_DRAFT,
  A_PATTERN_DRAFT,
} from '../support/own-object-data.ts'

const wrong = (more: object, draft: object = A_COMET_DRAFT) =>
  ownObjectProblems({ ...draft, ...more }).map(({ field, key }) => [field, key])

const { minorArcmin: _shorter, ...A_ROUND_DRAFT } = A_GALAXY_DRAFT
const FINE: readonly OwnObjectDraft[] = [
  A_COMET_DRAFT,
  A_NOVA_DRAFT,
  A_CLUSTER_DRAFT,
  A_GALAXY_DRAFT,
  A_DOUBLE_DRAFT,
  A_PATTERN_DRAFT,
  A_PASS_DRAFT,
  { ...A_NOVA_DRAFT, kind: 'red-star' },
  { ...A_GALAXY_DRAFT, kind: 'planetary' },
  { ...A_GALAXY_DRAFT, kind: 'nebula' },
  { ...A_GALAXY_DRAFT, kind: 'remnant' },
  { ...A_ROUND_DRAFT, kind: 'globular' },
]

describe('a thing as a host types it in', () => {
  it('is fine in every kind, with what that kind has', () => {
    expect(new Set(FINE.map(({ kind }) => kind))).toEqual(new Set(OWN_KINDS))
    for (const draft of FINE) expect(ownObjectProblems(draft), draft.kind).toEqual([])
  })

  it('stands somewhere in the sky: right ascension from 0 to less than 360, declination from pole to pole', () => {
    expect(wrong({ raDeg: 360 })).toEqual([['raDeg', 'problem.range-below']])
    expect(wrong({ raDeg: -0.1 })).toEqual([['raDeg', 'problem.range-below']])
    expect(wrong({ decDeg: 90.1 })).toEqual([['decDeg', 'problem.range']])
    expect(wrong({ decDeg: Number.NaN })).toEqual([['decDeg', 'problem.type']])
    expect(wrong({ raDeg: 0, decDeg: -90 })).toEqual([])
    expect(wrong({ raDeg: undefined })).toEqual([['raDeg', 'problem.required']])
  })

  it('names every missing field of its kind, and every one that another kind has, at once', () => {
    for (const draft of FINE) {
      for (const field of KIND_FIELDS) {
        if (isNeeded(draft.kind, field))
          expect(wrong({ [field]: undefined }, draft), `${draft.kind} ${field}`).toEqual([[field, 'problem.required']])
        if (!isAskedOf(draft.kind, field))
          expect(wrong({ [field]: 5 }, draft), `${draft.kind} ${field}`).toEqual([[field, 'problem.not-of-kind']])
      }
    }
    expect(wrong({ majorArcmin: undefined, condensation: undefined, fieldDeg: 'wide', appeal: 2 })).toEqual([
      ['appeal', 'problem.range'],
      ['majorArcmin', 'problem.required'],
      ['condensation', 'problem.required'],
      ['fieldDeg', 'problem.not-of-kind'],
    ])
  })

  it('has a condensation of ten steps when it is a comet', () => {
    expect(wrong({ condensation: 10 })).toEqual([['condensation', 'problem.range']])
    expect(wrong({ condensation: 4.5 }).map(([field]) => field)).toEqual(['condensation'])
    expect(wrong({ majorArcmin: 0 })).toEqual([['majorArcmin', 'problem.range']])
  })

  it('makes sense together: sizes, two stars, the brightest of many', () => {
    expect(wrong({ minorArcmin: 9 }, A_GALAXY_DRAFT)).toEqual([['minorArcmin', 'problem.size-order']])
    expect(wrong({ secondMagnitude: 2.9 }, A_DOUBLE_DRAFT)).toEqual([['secondMagnitude', 'problem.pair-order']])
    expect(wrong({ brightestStarMag: 4.9 }, A_CLUSTER_DRAFT)).toEqual([['brightestStarMag', 'problem.star-over-all']])
    expect(wrong({ colour: undefined }, A_DOUBLE_DRAFT)).toEqual([['colour', 'problem.required']])
    expect(wrong({ secondColour: undefined }, A_DOUBLE_DRAFT)).toEqual([['secondColour', 'problem.required']])
    expect(wrong({ colour: undefined, secondColour: undefined }, A_DOUBLE_DRAFT)).toEqual([])
  })

  it('says why it delights, in one line', () => {
    expect(wrong({ appeal: 1.1 })).toEqual([['appeal', 'problem.range']])
    expect(wrong({ appealReason: '' })).toEqual([['appealReason', 'problem.too-short']])
    expect(wrong({ appealReason: '   ' })).toEqual([['appealReason', 'problem.too-short']])
    expect(wrong({ appealReason: 'one\ntwo' })).toEqual([['appealReason', 'problem.one-line']])
    expect(wrong({ name: 'x'.repeat(61) })).toEqual([['name', 'problem.too-long']])
  })

  it('is of no other kind', () => {
    expect(wrong({ kind: 'moon' })).toEqual([['kind', 'problem.choice']])
    expect(ownObjectProblems('a comet')).toEqual([
      { field: '', key: 'problem.type-object', values: { type: 'object' } },
    ])
  })

  it('is judged, whatever it is', () => {
    fc.assert(
      fc.property(
        fc.anything(),
        fc.constantFrom(...FINE),
        fc.constantFrom(...KIND_FIELDS, 'name'),
        (any, draft, field) => {
          expect(Array.isArray(ownObjectProblems(any))).toBe(true)
          expect(Array.isArray(ownObjectProblems({ ...draft, [field]: any }))).toBe(true)
        },
      ),
    )
  })
})

describe('the object that it becomes', () => {
  it('lies in the constellation around its place and says of every value who gave it', () => {
    const key = ownKey('x1')
    const comet = ownObject(tidied({ ...A_COMET_DRAFT, name: ' Comet Häberli ' }), key)
    expect(comet).toMatchObject({ key: 'own-x1', name: 'Comet Häberli', constellation: 'And', majorArcmin: 12 })
    expect([isOwnKey(comet.key), isOwnKey('m13')]).toEqual([true, false])
    expect(new Set(Object.values(comet.sources))).toEqual(new Set(['entered by the host']))
    expect(Object.keys(comet.sources)).toContain('condensation')
  })

  it('is one light of two stars: twice the light is 0.75 magnitudes more', () => {
    const pair = ownObject(A_DOUBLE_DRAFT, 'own-pair')
    expect(pair).toMatchObject({ magnitude: 2.25, componentMagnitudes: [3, 3], colours: ['gold', 'blue'] })
    expect(Object.keys(pair.sources)).toEqual(expect.arrayContaining(['componentMagnitudes', 'colours']))
  })

  it('is round where no shorter side is known', () => {
    expect(ownObject(A_CLUSTER_DRAFT, 'own-1')).toMatchObject({ majorArcmin: 25, minorArcmin: 25, starCount: 60 })
    expect(ownObject(A_GALAXY_DRAFT, 'own-1')).toMatchObject({ majorArcmin: 8, minorArcmin: 3 })
  })

  it('can be reckoned with by every telescope, but for what passes over', () => {
    const bodies = {
      looks: {},
      rings: { majorArcsec: 0, minorArcsec: 0 },
      faces: facesAt(new Date('2026-12-17T18:00:00Z')),
    }
    for (const draft of FINE) {
      const object = ownObject(draft, 'own-1')
      const isPass = draft.kind === 'bare-eye'
      expect(isForTelescopes(object), draft.kind).toBe(!isPass)
      expect(subjectOf(object, bodies) === null, draft.kind).toBe(isPass)
    }
  })
})
