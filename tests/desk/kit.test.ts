import type { Database } from 'better-sqlite3'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { migrate } from '../../db/migrate.ts'
import { openDatabase } from '../../db/open.ts'
import { siteDesk } from '../../server/desk/sites.ts'
import { openStores } from '../../server/desk/stores.ts'
import { telescopeDesk } from '../../server/desk/telescopes.ts'
import { Fault } from '../../server/errors.ts'
import type { TelescopeDraft } from '../../server/tours/telescope.ts'
import { SITE_DRAFT, TELESCOPE_DRAFT } from '../support/field-data.ts'

let db: Database
let telescopes: ReturnType<typeof telescopeDesk>
let sites: ReturnType<typeof siteDesk>
beforeEach(() => {
  db = openDatabase(':memory:')
  migrate(db)
  const stores = openStores(db)
  telescopes = telescopeDesk(stores)
  sites = siteDesk(stores)
})
afterEach(() => db.close())

const wide = { name: 'wide', focalLengthMm: 25, apparentFieldDeg: 52, fieldStopMm: null }
const close = { name: '10 mm', focalLengthMm: 10, apparentFieldDeg: 50, fieldStopMm: 8 }
const barlow = { name: '2x Barlow', factor: 2 }
const DRAFT: TelescopeDraft = { ...TELESCOPE_DRAFT, eyepieces: [wide, close], factors: [barlow] }
const ids = (things: readonly { readonly id: string }[]) => things.map(({ id }) => id)
const problemsOf = (act: () => unknown) => {
  try {
    act()
  } catch (error) {
    if (error instanceof Fault)
      return { code: error.code, fields: error.problems.map(({ field, key }) => [field, key]) }
    throw error
  }
  return undefined
}

describe('a telescope with a Barlow', () => {
  it('comes back with it, and without one when none was said', () => {
    const kept = telescopes.add(DRAFT)
    expect(kept.factors).toEqual([{ ...barlow, id: expect.stringMatching(/^[^*]+$/) }])
    expect(telescopes.all()).toEqual([kept])
    expect(telescopes.add({ ...TELESCOPE_DRAFT, name: 'Plain' }).factors).toEqual([])
  })

  it('refuses a factor beyond 0.3 to 5, a fourth one, and a name that is there twice', () => {
    const wrong = (factors: { name: string; factor: number }[]) =>
      problemsOf(() => telescopes.add({ ...DRAFT, factors }))?.fields
    expect(wrong([{ name: 'x', factor: 0.2 }])).toEqual([['factors.0.factor', 'problem.range']])
    expect(wrong([{ name: 'x', factor: 5.1 }])).toEqual([['factors.0.factor', 'problem.range']])
    expect(wrong([{ name: '', factor: 2 }])).toEqual([['factors.0.name', 'problem.too-short']])
    expect(wrong([barlow, { name: '2X barlow', factor: 3 }])).toEqual([['factors.1.name', 'problem.name-twice']])
    const four = [2, 3, 4, 5].map((factor) => ({ name: `${factor}x`, factor }))
    expect(wrong(four)).toEqual([['factors', 'problem.too-many']])
    expect(telescopes.all()).toEqual([])
  })
})

describe('a telescope kept over the years', () => {
  const finder = { kind: 'right-angle', fieldDeg: 6.5, powerX: 8 } as const
  const OLD: TelescopeDraft = { ...DRAFT, finder, inKitSince: 1998, note: 'focuser sticks in frost' }

  it('comes back with its finder, its year and its note, and without them when nobody has said', () => {
    const kept = telescopes.add(OLD)
    expect(kept).toMatchObject({ finder, inKitSince: 1998, note: 'focuser sticks in frost' })
    expect(telescopes.all()).toEqual([kept])
    const plain = telescopes.change(kept.id, DRAFT)
    expect(Object.keys(plain)).not.toEqual(expect.arrayContaining(['finder']))
    expect([plain.finder, plain.inKitSince, plain.note]).toEqual([undefined, undefined, undefined])
  })

  it('stays put away through a change, until it is taken out again', () => {
    const { id } = telescopes.add(OLD)
    expect(telescopes.putAway(id, true)).toMatchObject({ ...OLD, factors: [barlow], isPutAway: true })
    expect(telescopes.change(id, { ...OLD, name: 'Repainted' })).toMatchObject({ isPutAway: true, name: 'Repainted' })
    expect(telescopes.putAway(id, false).isPutAway).toBeUndefined()
    expect(problemsOf(() => telescopes.putAway('nowhere', true))?.code).toBe('not-found')
  })

  it('refuses a finder wider than 20 degrees, an odd kind, a year before any and an endless note', () => {
    const wrong = (more: object) => problemsOf(() => telescopes.add({ ...DRAFT, ...more }))?.fields
    expect(wrong({ finder: { ...finder, fieldDeg: 21 } })).toEqual([['finder.fieldDeg', 'problem.range']])
    expect(wrong({ finder: { ...finder, kind: 'laser' } })?.map(([field]) => field)).toContain('finder.kind')
    expect(wrong({ inKitSince: 98 })).toEqual([['inKitSince', 'problem.range']])
    expect(wrong({ note: 'x'.repeat(301) })).toEqual([['note', 'problem.too-long']])
  })
})

describe('a changed telescope', () => {
  it('keeps every id of what is the same glass, in whatever order, renamed or corrected', () => {
    const before = telescopes.add(DRAFT)
    const after = telescopes.change(before.id, {
      ...DRAFT,
      name: 'Repainted',
      eyepieces: [
        { ...close, name: 'orange ring' },
        { ...wide, apparentFieldDeg: 56 },
      ],
    })
    expect(after).toMatchObject({ id: before.id, name: 'Repainted' })
    expect(ids(after.eyepieces)).toEqual(ids(before.eyepieces).toReversed())
    expect([ids(after.tubes), ids(after.factors)]).toEqual([ids(before.tubes), ids(before.factors)])
    expect(after.eyepieces.map(({ name, apparentFieldDeg }) => [name, apparentFieldDeg])).toEqual([
      ['orange ring', 50],
      ['wide', 56],
    ])
    expect(telescopes.all()).toEqual([after])
  })

  it('gives a new id to glass of another power, so that no old programme names it', () => {
    const before = telescopes.add(DRAFT)
    const after = telescopes.change(before.id, {
      ...DRAFT,
      eyepieces: [wide, { ...close, focalLengthMm: 12 }],
      factors: [{ ...barlow, factor: 3 }],
    })
    expect(after.eyepieces[0]?.id).toBe(before.eyepieces[0]?.id)
    expect(ids(before.eyepieces)).not.toContain(after.eyepieces[1]?.id)
    expect(ids(before.factors)).not.toContain(after.factors[0]?.id)
  })

  it('tells two eyepieces of one length apart by their names', () => {
    const twin = { ...wide, name: 'wide, second' }
    const before = telescopes.add({ ...DRAFT, eyepieces: [wide, twin] })
    const after = telescopes.change(before.id, { ...DRAFT, eyepieces: [twin] })
    expect(ids(after.eyepieces)).toEqual([before.eyepieces[1]?.id])
  })

  it('stays as it was when the new one is wrong, and is not found under another id', () => {
    const before = telescopes.add(DRAFT)
    const wrong = problemsOf(() => telescopes.change(before.id, { ...DRAFT, tubes: [] }))
    expect(wrong).toEqual({ code: 'invalid', fields: [['tubes', 'problem.no-tube']] })
    expect(telescopes.find(before.id)).toEqual(before)
    expect(problemsOf(() => telescopes.change('nowhere', DRAFT))?.code).toBe('not-found')
  })
})

describe('a changed site', () => {
  it('has its new glow and skyline, and stays as it was when they are wrong', () => {
    const { id } = sites.add(SITE_DRAFT)
    const glow = [{ fromDeg: 315, toDeg: 0, brighterMag: 0.4 }]
    const after = sites.change(id, { ...SITE_DRAFT, skyMag: 18.6, horizon: [], glow })
    expect(sites.all()).toEqual([{ ...SITE_DRAFT, id, skyMag: 18.6, horizon: [], glow }])
    const same = [{ fromDeg: 90, toDeg: 90, brighterMag: 1 }]
    expect(problemsOf(() => sites.change(id, { ...SITE_DRAFT, glow: same }))?.fields).toEqual([
      ['glow.0.toDeg', 'problem.sector-empty'],
    ])
    expect(sites.find(id)).toEqual(after)
  })
})
