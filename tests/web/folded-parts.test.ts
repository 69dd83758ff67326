import { describe, expect, it } from 'vitest'
import type { FormState } from '../../server/web/pages/form.ts'
import { siteFormPage } from '../../server/web/pages/site-form.ts'
import { telescopeFormPage } from '../../server/web/pages/telescope-form.ts'
import { HOST } from '../support/page-data.ts'

const typed = (values: FormState['values']): FormState => ({ values, problems: [] })
const wrong = (field: string): FormState => ({ values: {}, problems: [{ field, key: 'problem.type' }] })

describe('parts of the form of a telescope that most leave out', () => {
  const openOf = (state: FormState, factors = 1) => {
    const rows = { eyepieces: 3, factors }
    const page = telescopeFormPage(HOST, { id: null, state, rows, sites: [], nights: [], asked: null })
    const [first, second] = page.tubes
    expect(first?.fold).toBeUndefined()
    const open = {
      tube: second?.fold?.isOpen === true,
      factors: page.isFactorsOpen,
      finder: page.isFinderOpen,
      kept: page.isKeptOpen,
    }
    return Object.entries(open).flatMap(([part, isOpen]) => (isOpen ? [part] : []))
  }

  it('are folded in a new form, and in one that was sent with nothing in them', () => {
    expect(openOf(typed({}))).toEqual([])
    const sent = { 'tubes.1.design': 'refractor', 'tubes.1.apertureMm': '', 'finder.kind': '', inKitSince: '' }
    expect(openOf(typed(sent))).toEqual([])
  })

  it.each([
    ['tube', 'tubes.1.apertureMm', '72'],
    ['tube', 'tubes.1.design', 'reflector'],
    ['tube', 'tubes.1.hasDiagonal', 'true'],
    ['factors', 'factors.0.factor', '2'],
    ['finder', 'finder.kind', 'red-dot'],
    ['kept', 'note', 'The wheel sticks.'],
  ])('stand open where something is in them, as in the part “%s” by %s', (part, field, value) => {
    expect(openOf(typed({ [field]: value }))).toEqual([part])
    expect(openOf(wrong(field))).toEqual([part])
  })

  it('stand open where a row was asked for', () => expect(openOf(typed({}), 2)).toEqual(['factors']))
})

describe('parts of the form of a site that most leave out', () => {
  const openOf = (state: FormState, rows: Parameters<typeof siteFormPage>[1]['rows']) => {
    const page = siteFormPage(HOST, { id: null, state, rows, drawn: [], notes: [], search: null })
    return [page.skyline.isTableOpen, page.isGlowOpen]
  }

  it('are folded while they are empty', () => {
    expect(openOf(typed({ 'horizon.0.altitudeDeg': '' }), { glows: 2, corners: null })).toEqual([false, false])
  })

  it('stand open where something is typed, wrong, tapped or asked for', () => {
    const rows = { glows: 2, corners: null }
    expect(openOf(typed({ 'horizon.3.altitudeDeg': '15' }), rows)).toEqual([true, false])
    expect(openOf(wrong('horizon.3.altitudeDeg'), rows)).toEqual([true, false])
    expect(openOf(typed({}), { ...rows, corners: 3 })).toEqual([true, false])
    expect(openOf(wrong('glow.1.toDeg'), rows)).toEqual([false, true])
    expect(openOf(typed({}), { ...rows, glows: 3 })).toEqual([false, true])
  })
})
