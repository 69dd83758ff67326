import { beforeEach, describe, expect, it } from 'vitest'
import { nightHours } from '../../server/tours/hours.ts'
import { goPage } from '../../server/web/pages/go.ts'
import { keepText, lastsText, madeSentence } from '../../server/web/pages/go-text.ts'
import { tonightPage } from '../../server/web/pages/tonight.ts'
import { A_MIXED_NIGHT } from '../support/beside-data.ts'
import { A_NIGHT } from '../support/field-data.ts'
import { A_DOUBTFUL_NIGHT, A_GO, A_THIN, NO_THIN, nothingKnown, withSentence } from '../support/go-data.ts'
import { ENGLISH, HOST, NAMES, VISITOR } from '../support/page-data.ts'
import { pagedApp } from '../support/paged-app.ts'
import { A_TONIGHT_PAGE } from '../support/queue-data.ts'
import { asHost, asVisitor, formPost, type TestApp } from '../support/web.ts'

const OFF = { ...A_NIGHT, state: 'off' as const }
const board = (go = A_GO, night = A_DOUBTFUL_NIGHT, viewer = HOST) =>
  goPage(viewer, {
    night,
    go,
    hasTour: true,
    thin: A_THIN,
    suggested: null,
    names: NAMES,
    state: { values: {}, problems: [] },
  })

describe('the go or no-go board', () => {
  it('says of every value how it stands and when it was entered, or that it is not known', () => {
    const lines = board().lines.map(({ name, value, standing }) => [name, value, standing])
    expect(lines).toEqual([
      ['Cloud', '60 %', 'doubtful'],
      ['Wind', '', 'not known'],
      ['Gusts', '', 'not known'],
      ['Air-quality index', '', 'not known'],
      ['Temperature', '-12°C', 'under your limit'],
      ['Rain', '', 'not known'],
      ['Thunder', 'no', 'fine'],
    ])
    expect(board().lines[0]?.entered).toBe('Entered at 15:00, 3 h 45 min ago.')
    expect(board().earlier).toHaveLength(3)
    expect(board().earlier[2]).toContain('Cloud 20 %')
  })

  it('proposes, and keeps what was decided beside what had been proposed', () => {
    expect(board().proposal).toEqual([
      'Proposed: off. At your limit or beyond: temperature.',
      'Not known: wind, gusts, air quality, and rain. What is not known is not taken for fine.',
    ])
    expect(board().decisions).toEqual([
      '16:05 on Friday 20 November 2026: On but doubtful, fewer telescopes, by the host’s phone (Ines). Proposed then: off. Why: It is to clear up from the west.',
    ])
  })

  it('counts down to the decision and then asks for it', () => {
    const go = nothingKnown(A_NIGHT)
    const at = (minutes: number) => ({ ...HOST, now: new Date(go.decisionAt.getTime() + minutes * 60_000) })
    expect(board(go, A_NIGHT, at(-130)).decision).toMatch(
      /^Decide by \d\d:\d\d on Friday 20 November 2026: in 2 h 10 min\.$/,
    )
    expect(board(go, A_NIGHT, at(15)).decision).toContain('15 min ago, and nothing is decided yet')
    expect([60_000, 3_600_000, 3 * 86_400_000].map((ms) => lastsText(ENGLISH, ms))).toEqual(['1 min', '1 h', '3 days'])
  })

  it('gives a reader no form', () => {
    const page = board(A_GO, A_DOUBTFUL_NIGHT, VISITOR)
    expect([page.enter, page.decide, page.plan, page.limitsLink, page.sentence?.save]).toEqual(Array(5).fill(null))
  })
})

describe('the sentence to publish', () => {
  it('is made of decision, date with the month as a word, place, hours and the next word', () => {
    expect(madeSentence(ENGLISH, A_NIGHT, A_GO.plan)).toBeNull()
    const said = madeSentence(ENGLISH, A_DOUBTFUL_NIGHT, A_GO.plan) ?? ''
    for (const part of ['20 November 2026', A_NIGHT.site.name, A_NIGHT.opens, A_NIGHT.closes, '18:00', 'our website'])
      expect(said).toContain(part)
    const on = madeSentence(ENGLISH, { ...A_NIGHT, state: 'on' }, A_GO.plan)
    expect(on).not.toContain('our website')
  })

  it('names the back-up date of a night that is off where there is one, and nothing else', () => {
    const plan = { ...A_GO.plan, backUpDate: '2026-11-27' }
    expect(madeSentence(ENGLISH, OFF, plan)).toContain('The back-up date is Friday 27 November 2026.')
    expect(madeSentence(ENGLISH, OFF, A_GO.plan)).not.toContain('back-up')
  })

  it('stands on the visitors’ page, the host’s own wording only while it holds', () => {
    const notice = (go: typeof A_GO, night = A_DOUBTFUL_NIGHT) =>
      tonightPage(VISITOR, { ...A_TONIGHT_PAGE, night: { ...A_MIXED_NIGHT, state: night.state }, go }).notice
    expect(notice(A_GO)).toContain('may be called off')
    expect(notice(withSentence('Come early.', true))).toBe('Come early.')
    expect(notice(withSentence('Come early.', false))).toContain('may be called off')
    expect(notice(A_GO, A_NIGHT)).toBeNull()
    expect(board(withSentence('Come early.', false)).sentence?.dropped).toContain('Come early.')
  })

  it('sends nobody to a telescope on a night that is off', () => {
    const night = { ...A_MIXED_NIGHT, state: 'off' as const }
    const page = tonightPage(VISITOR, { ...A_TONIGHT_PAGE, night })
    expect([page.lead, page.first, page.stations, page.care]).toEqual(['', [], [], []])
    expect(page.title).toBe('This night is called off')
  })
})

describe('which telescopes to keep', () => {
  const spare = { ...A_NIGHT.stations[0], id: 'station-2', name: 'By the gate' } as (typeof A_NIGHT.stations)[number]

  it('is one sentence with the reason', () => {
    const { opensAt, closesAt } = nightHours(A_NIGHT)
    const long = { ...A_THIN, stops: A_THIN.stops.map((stop) => ({ ...stop, startsAt: opensAt, endsAt: closesAt })) }
    const said = keepText(ENGLISH, { ...A_NIGHT, stations: [...A_NIGHT.stations, spare] }, NAMES, long)
    expect(said).toMatch(
      /^Keep By the oak: .*Great cluster in Hercules; By the gate would stand idle for most of the evening\.$/,
    )
    expect(keepText(ENGLISH, A_NIGHT, NAMES, long)).toContain('Every telescope')
    expect(keepText(ENGLISH, A_NIGHT, NAMES, NO_THIN)).toContain('No telescope')
  })
})

describe('the routes of go or no-go', () => {
  let service: TestApp
  beforeEach(async () => {
    service = await pagedApp()
  })
  const GO = `/nights/${A_NIGHT.id}/go`
  const post = (to: string, values: Record<string, string>, as = asHost) =>
    service.app.inject(as(formPost(`${GO}/${to}`, values)))
  const page = async (url: string, as = asHost) => (await service.app.inject(as({ url }))).body

  it('keep values, decide, and publish the sentence to everyone', async () => {
    expect((await post('values', { units: 'imperial', cloud: '80 %', wind: '18', rain: '0' })).statusCode).toBe(303)
    expect(service.desk.go.of(A_NIGHT.id).readings.map(({ kind, value }) => [kind, value])).toEqual([
      ['rain', 0],
      ['wind', 29],
      ['cloud', 80],
    ])
    expect(await page(GO)).toContain('Proposed: off. At your limit or beyond: cloud and wind.')
    const answer = await post('decide', { state: 'doubtful', why: 'Clearing.' })
    expect([answer.statusCode, answer.headers.location]).toEqual([303, GO])
    expect(service.desk.nights.find(A_NIGHT.id).state).toBe('doubtful')
    expect(service.desk.go.of(A_NIGHT.id).decisions).toMatchObject([
      { state: 'doubtful', proposed: 'off', why: 'Clearing.' },
    ])
    expect(await page(`/tonight/${A_NIGHT.id}`, asVisitor)).toContain('may be called off because of the weather')
    await post('sentence', { act: 'own', sentence: ' Come at <nine>. ' })
    expect(await page(`/nights/${A_NIGHT.id}`, asVisitor)).toContain('Come at &lt;nine&gt;.')
    await post('decide', { state: 'off', why: '' })
    const after = await page(GO)
    expect(after).toContain('is called off because of the weather')
    expect(after).toContain('Your own wording no longer holds')
  })

  it('give back what was typed with a sentence at the field', async () => {
    const answer = await post('values', { units: 'metric', wind: 'strong', cloud: '40' })
    expect(answer.statusCode).toBe(422)
    expect(answer.body).toContain('value="strong"')
    expect(answer.body).toContain('value="40"')
    expect(answer.body).toContain('Write a speed such as 20')
    expect(service.desk.go.of(A_NIGHT.id).readings).toEqual([])
    expect((await post('values', { units: 'metric' })).body).toContain('Fill in at least one value.')
    expect((await post('plan', { nextWordAt: 'soon' })).body).toContain('Write a time of the clock')
    expect((await post('decide', { state: 'maybe' })).statusCode).toBe(422)
  })

  it('keep limits for all nights, in the units of the form', async () => {
    const limits = {
      cloud: [20, 40],
      moonCloud: [60, 80],
      wind: [10, 20],
      gust: [20, 30],
      air: [50, 100],
      temperature: [40, 20],
    }
    const typed = Object.entries(limits).flatMap(([name, [doubtful, off]]) => [
      [`${name}.doubtful`, String(doubtful)],
      [`${name}.off`, String(off)],
    ])
    const values = { ...Object.fromEntries(typed), units: 'imperial', rain: 'doubtful' }
    expect((await post('limits', values)).statusCode).toBe(303)
    expect(service.desk.go.limits()).toMatchObject({
      wind: { doubtful: 16, off: 32 },
      temperature: { doubtful: 4.4, off: -6.7 },
    })
    const wrong = await post('limits', { ...values, 'cloud.off': '10' })
    expect(wrong.statusCode).toBe(422)
    expect(wrong.body).toContain('this must not be more than the other')
  })

  it('let nobody decide who has not joined, and everybody read the evening under thin cloud', async () => {
    expect((await post('decide', { state: 'off' }, asVisitor)).statusCode).toBe(403)
    expect((await service.app.inject(asVisitor({ url: GO }))).statusCode).toBe(403)
    expect(await page(`/nights/${A_NIGHT.id}/thin-cloud`, asVisitor)).toContain(
      'Neither Moon nor planet can be shown from 18:30 to 19:00.',
    )
    const answer = await service.app.inject(asVisitor({ url: `/api/nights/${A_NIGHT.id}/thin-cloud` }))
    expect(answer.json()).toMatchObject({ stops: [{ targetKey: 'm13' }], notes: [{ code: 'thin.without' }] })
    const state = await service.app.inject(asHost({ url: `/api/nights/${A_NIGHT.id}/go` }))
    expect(state.json()).toMatchObject({ state: 'planned', proposal: { state: 'unknown' }, sentence: null })
  })
})
