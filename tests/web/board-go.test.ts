import { describe, expect, it } from 'vitest'
import { attention } from '../../server/web/pages/attention.ts'
import { boardPage } from '../../server/web/pages/board.ts'
import { A_NIGHT } from '../support/field-data.ts'
import { A_DOUBTFUL_NIGHT, A_GO, nothingKnown, withSentence } from '../support/go-data.ts'
import { AN_EVENING, HOLDING, HOST, NAMES, TOUR, VISITOR } from '../support/page-data.ts'

const OFF = { ...A_NIGHT, state: 'off' as const }

describe('the board of the night', () => {
  const go = nothingKnown(A_NIGHT)
  const subject = {
    ...{
      night: A_NIGHT,
      evening: AN_EVENING,
      tour: TOUR,
      state: HOLDING,
      field: undefined,
      out: [],
      go,
      phones: [],
      backups: null,
    },
    ...{ siteCount: 1, telescopeCount: 1, names: NAMES, newKey: () => 'key-12345' },
  }
  const by = (minutes: number, viewer = HOST) => ({
    ...viewer,
    now: new Date(go.decisionAt.getTime() + minutes * 60_000),
  })

  it('makes the decision the next step once its time has come, and only then', () => {
    expect(boardPage(by(-1), subject).next.code).not.toBe('decide')
    expect(boardPage(by(1), subject).next).toMatchObject({ code: 'decide', href: `/nights/${A_NIGHT.id}/go` })
    expect(boardPage(by(1, VISITOR), subject).next.code).toBe('read')
    const off = { ...subject, night: OFF }
    expect(boardPage(by(1), off).next).toMatchObject({ code: 'off', href: `/nights/${A_NIGHT.id}/go` })
    expect(boardPage(by(1, VISITOR), off).next).toMatchObject({ code: 'off-read', href: '/nights' })
  })

  it('reminds where another step comes first', () => {
    const decisionAt = go.decisionAt
    const needs = { night: A_NIGHT, tour: undefined, field: undefined, out: [], names: NAMES, decisionAt }
    expect(attention(by(1), needs)[0]).toMatchObject({
      text: expect.stringContaining('nothing is decided yet'),
      act: { href: `/nights/${A_NIGHT.id}/go` },
    })
    expect(
      attention(by(1, VISITOR), needs)
        .map(({ text }) => text)
        .join(),
    ).not.toContain('decided')
    expect(
      boardPage(by(1), subject)
        .attention.map(({ text }) => text)
        .join(),
    ).not.toContain('decided')
  })

  it('says beside the title and the date of the night what is more than they', () => {
    const said = (more: object, viewer = by(-60)) => boardPage(viewer, { ...subject, ...more }).go
    expect(said({})).toMatchObject({ state: 'Not decided yet', text: 'Decide by 15:30: in 1 h.' })
    expect(said({}, by(1))?.text).toBeNull()
    expect(said({}, by(-60, VISITOR))).toBeNull()
    expect(said({ night: { ...A_NIGHT, state: 'on' } })).toMatchObject({ state: 'On', text: null })
    expect(said({ night: A_DOUBTFUL_NIGHT, go: A_GO })?.text).toBe('The next word comes at 18:00, here: our website.')
    const own = withSentence('Come early.', true)
    expect(said({ night: A_DOUBTFUL_NIGHT, go: own })?.text).toBe('Come early.')
    const plan = { ...A_GO.plan, backUpDate: '2026-11-27' }
    expect(said({ night: OFF, go: { ...A_GO, plan } })?.text).toBe('The back-up date is Friday 27 November 2026.')
  })
})
