import { describe, expect, it } from 'vitest'
import { tidied } from '../../server/tours/own-object.ts'
import { instantAsTyped, passesIn, passOf, typedInstant } from '../../server/tours/own-pass.ts'
import { ownObjectProblems } from '../../server/tours/own-problems.ts'
import { A_NIGHT } from '../support/field-data.ts'
import { A_COMET_DRAFT, A_PASS_DRAFT, ownThing } from '../support/own-object-data.ts'

const at = (zone: string, date = '2026-11-20', opens = '18:30', closes = '21:30') => ({
  date,
  opens,
  closes,
  site: { zone },
})
const BERLIN = at('Europe/Berlin')
const problems = (more: object) => ownObjectProblems({ ...A_PASS_DRAFT, ...more }).map(({ field, key }) => [field, key])

describe('the time of a pass as it is typed', () => {
  it('is by the clocks of the night on which it falls', () => {
    expect(typedInstant('2026-11-20 19:12:10', [BERLIN])).toBe('2026-11-20T18:12:10.000Z')
    expect(typedInstant(' 2026-11-20T9:05 ', [at('Europe/Berlin', '2026-11-19', '20:00')])).toBe(
      '2026-11-20T08:05:00.000Z',
    )
  })

  it('belongs to the night of the evening before when it is past midnight', () => {
    expect(typedInstant('2026-11-21 01:00', [BERLIN])).toBe('2026-11-21T00:00:00.000Z')
    expect(typedInstant('2026-11-21 12:00', [BERLIN])).toBeUndefined()
    expect(typedInstant('2026-11-20 11:59', [BERLIN])).toBeUndefined()
  })

  it('is not guessed where no night, or nights of other clocks, have it', () => {
    expect(typedInstant('2026-11-25 19:12', [BERLIN])).toBeUndefined()
    expect(typedInstant('2026-11-20 19:12', [])).toBeUndefined()
    expect(typedInstant('2026-11-20 19:12', [BERLIN, at('Europe/London')])).toBeUndefined()
    expect(typedInstant('2026-11-20 19:12', [BERLIN, at('Europe/Zurich')])).toBe('2026-11-20T18:12:00.000Z')
  })

  it('may say its zone itself', () => {
    for (const text of [
      '2026-11-20T19:12+01:00',
      '2026-11-20 18:12Z',
      '2026-11-20t18:12:00z',
      '2026-11-20 19:12 +0100',
    ])
      expect(typedInstant(text, []), text).toBe('2026-11-20T18:12:00.000Z')
  })

  it.each([
    '',
    'tomorrow',
    '19:12',
    '2026-11-20',
    '2026-02-30T10:00Z',
    '2026-11-20T25:00Z',
    '20261120T1912',
    '2026-W47',
  ])('is not %s', (text) => expect(typedInstant(text, [BERLIN])).toBeUndefined())

  it('is shown again as it was typed, where a night has it', () => {
    const iso = '2026-11-20T18:12:10.000Z'
    expect(instantAsTyped(iso, [at('Europe/London', '2026-12-24'), BERLIN])).toBe('2026-11-20 19:12:10')
    expect(instantAsTyped(iso, [])).toBe(iso)
    expect(instantAsTyped(iso, [BERLIN, at('Europe/London')])).toBe(iso)
  })
})

describe('a pass', () => {
  it('ends after it comes up, within two hours', () => {
    expect(problems({ toAt: A_PASS_DRAFT.fromAt })).toEqual([['toAt', 'problem.pass-order']])
    expect(problems({ toAt: '2026-11-20T20:12:11Z' })).toEqual([['toAt', 'problem.pass-long']])
    expect(problems({ toAt: '2026-11-20T20:12:10Z' })).toEqual([])
  })

  it('comes at times that are, with their zone, in directions of the compass', () => {
    expect(problems({ fromAt: '2026-11-20 19:12' })).toEqual([['fromAt', 'problem.pattern']])
    expect(problems({ fromAt: '2026-02-30T19:12Z' })).toEqual([['fromAt', 'problem.no-such-instant']])
    expect(problems({ fromPoint: 16 })).toEqual([['fromPoint', 'problem.range']])
  })

  it('is kept in universal time', () => {
    const draft = tidied({ ...A_PASS_DRAFT, fromAt: '2026-11-20T19:12:10+01:00' })
    expect(draft.fromAt).toBe('2026-11-20T18:12:10.000Z')
    expect(passOf(draft)).toMatchObject({ fromAt: new Date('2026-11-20T18:12:10Z'), fromPoint: 12, toPoint: 3 })
    expect(passOf(A_COMET_DRAFT)).toBeNull()
  })

  it('is listed in the public hours in which it falls, in the order of times, while it is on the list', () => {
    const early = ownThing({ ...A_PASS_DRAFT, fromAt: '2026-11-20T17:29:00Z', toAt: '2026-11-20T17:31:00Z' })
    const before = ownThing({ ...A_PASS_DRAFT, fromAt: '2026-11-20T17:20:00Z', toAt: '2026-11-20T17:30:00Z' })
    const after = ownThing({ ...A_PASS_DRAFT, fromAt: '2026-11-20T20:30:00Z', toAt: '2026-11-20T20:35:00Z' })
    const gone = ownThing(A_PASS_DRAFT, { isListed: false })
    const things = [ownThing(A_PASS_DRAFT), ownThing(A_COMET_DRAFT), early, before, after, gone]
    expect(passesIn(BERLIN, things).map(({ draft }) => draft.fromAt)).toEqual([early.draft.fromAt, A_PASS_DRAFT.fromAt])
    expect(passesIn({ ...BERLIN, date: '2026-11-21' }, things)).toEqual([])
    expect(passesIn(A_NIGHT, things)).toHaveLength(2)
  })
})
