import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Paper } from '../../server/web/pages/paper.ts'
import { type OfferedPiece, offeredPieces, printPlan } from '../../server/web/pages/paper-choice.ts'
import { papersForm } from '../../server/web/pages/papers-form.ts'
import { printTonightPage } from '../../server/web/pages/print-tonight.ts'
import { fakeDesk } from '../support/fake-desk.ts'
import { A_NIGHT } from '../support/field-data.ts'
import { HOST } from '../support/page-data.ts'
import { pagedApp } from '../support/paged-app.ts'
import { A_FULL_PRINT } from '../support/paper-pages.ts'
import { A_JOIN_CARD } from '../support/phone-pages.ts'
import { askedBy, filledIn } from '../support/typed-form.ts'
import { asHost, asVisitor, type TestApp, testApp } from '../support/web.ts'

const look = { paper: 'a4', letters: 'normal' } as const
const all = offeredPieces(HOST, A_FULL_PRINT, A_JOIN_CARD)
const sized = (...pages: number[]): OfferedPiece[] =>
  all.slice(0, pages.length).map((piece, i) => ({ ...piece, pages: pages[i] ?? 0 }))
const pagesIn = (plan: ReturnType<typeof printPlan>) => plan.pieces.map(({ pages }) => pages)

describe('the papers of tonight', () => {
  it('are the most useful ones that eight sheets hold, a smaller one where a larger does not fit', () => {
    const plan = printPlan(sized(1, 5, 3, 2, 1), null, look)
    expect(pagesIn(plan)).toEqual([1, 5, 2])
    expect(plan.leftOut.map(({ pages }) => pages)).toEqual([3, 1])
  })

  it('are fewer in large letters, which may need a sheet more each', () => {
    expect(pagesIn(printPlan(sized(1, 3, 1, 1), null, { ...look, letters: 'large' }))).toEqual([1, 3])
  })

  it('are what was chosen, as often as was chosen, however many sheets that is', () => {
    const copies = { 'run-sheet': 2, cards: 9, tally: 0 }
    const page = printTonightPage(HOST, A_FULL_PRINT, all, copies)
    expect(page.pieces.map(({ partial }) => partial)).toEqual(['run-sheet', 'run-sheet', ...Array(9).fill('cards')])
    expect(page.notes).toHaveLength(1)
    expect(page.notes[0]).toContain('Run sheet (2 times)')
    expect(page.links.map(({ href }) => href).join()).toMatch(/papers\?paper=a4&.*copies-run-sheet=2&copies-cards=9/)
  })

  it('name above them what was left out', () => {
    const { leftOut } = printTonightPage(HOST, A_FULL_PRINT, sized(8, 4), null)
    expect(leftOut?.label).toBe('1 paper was left out to stay within 8 sheets')
    expect(leftOut?.text).toMatch(/^[\w ]+ \(4\)\. .*“Choose papers”/)
    expect(printTonightPage(HOST, A_FULL_PRINT, sized(4, 4), null).leftOut).toBeNull()
  })
})

describe('the choice of papers', () => {
  it('says of each piece what it is for and how many pages it takes, and offers the usual ones first', () => {
    const { pieces } = papersForm(HOST, A_FULL_PRINT, all, null)
    expect(pieces.map(({ field }) => field.name)).toEqual(all.map(({ name }) => `copies-${name}`))
    for (const { purpose, pages } of pieces) {
      expect(purpose).toMatch(/^For|^One|^At/)
      expect(pages).toMatch(/^\d+ pages?\.$/)
    }
    const usual = printPlan(all, null, look).pieces.map(({ name }) => `copies-${name}`)
    expect(pieces.filter(({ field }) => field.value === '1').map(({ field }) => field.name)).toEqual(usual)
  })

  it('keeps what an address asks', () => {
    const form = papersForm(HOST, { ...A_FULL_PRINT, look: { paper: 'letter', letters: 'large' } }, all, { cards: 3 })
    const asked = form.pieces.map(({ field }) => field).filter(({ value }) => value !== '0')
    expect(asked).toMatchObject([{ name: 'copies-cards', value: '3', label: 'Copies: Object cards' }])
    expect(form.lookFields.map(({ value }) => value)).toEqual(['letter', 'metric', 'large', 'de'])
    expect(form.pieces[0]?.alone.href).toMatch(/run-sheet\?paper=letter&letters=large/)
  })
})

describe('the service', () => {
  let service: TestApp
  const own = `/nights/${A_NIGHT.id}`
  const get = (url: string, who = asHost) => service.app.inject(who({ url }))

  beforeAll(async () => {
    service = await pagedApp()
  })
  afterAll(async () => {
    await service?.app.close()
  })

  it.each<Paper>(['a4', 'letter'])('shows the choice and the document on %s', async (paper) => {
    expect((await get(`${own}/papers?paper=${paper}`)).body).toContain('<h1>Papers</h1>')
    expect((await get(`${own}/print/tonight?paper=${paper}`)).body).toContain(`page-${paper} run-sheet`)
  })

  it('refuses what cannot be printed in a clear sentence above the form, which keeps the choice', async () => {
    const refused = async (query: string) => {
      const { statusCode, body } = await get(`${own}/print/tonight?${query}&copies-run-sheet=0&paper=letter`)
      expect([statusCode, filledIn(body)['copies-run-sheet'], filledIn(body).paper]).toEqual([422, '0', 'letter'])
      const [, href = '', said = ''] = /data-problems.*?<a href="#([^"]*)">([^<]*)</s.exec(body) ?? []
      return { said, isHere: body.includes(`id="${href}"`), form: filledIn(body) }
    }
    const many = await refused('copies-cards=many')
    expect(many).toMatchObject({ said: 'Copies: Object cards: Write a whole number here.', isHere: true })
    expect(many.form['copies-cards']).toBe('many')
    expect((await refused('copies-cards=61')).said).toBe('Copies: Object cards: It must be from 0 to 60.')
    expect((await refused('copies-cards=')).said).toMatch(/^Choose at least one paper/)
    expect((await refused('letters=huge')).said).toBe('Letters: Choose one of the list.')
    expect((await refused('units=leagues')).said).toBe('Lengths: Choose one of the list.')
    expect(await refused('copies-cards=0')).toMatchObject({
      said: expect.stringMatching(/^Choose at least one paper/),
      isHere: true,
    })
  })

  it('answers the form above the cards with the cards, in the letters that were chosen', async () => {
    const { body } = await get(`${own}/print/cards?paper=letter&letters=large`)
    const [form = ''] = /<form class="paper-bar".*?<\/form>/s.exec(body) ?? []
    const address = askedBy(form)
    expect(address).toMatch(/print\/cards\?paper=letter&letters=large&cards=four&backs=/)
    const answer = await get(address)
    expect([answer.statusCode, answer.body.includes('page-letter')]).toEqual([200, true])
  })

  it('gives the codes of the join card to the host alone', async () => {
    for (const url of [`${own}/papers`, `${own}/print/tonight?copies-join-card=1&copies-run-sheet=1`]) {
      expect((await get(url, asVisitor)).body).not.toMatch(/Join card|class="[^"]*join-card|4F7K/)
    }
  })

  it('remembers the units for every page', async () => {
    const { headers } = await get(`${own}/papers?units=imperial`)
    const cookie = String(headers['set-cookie'])
    expect(cookie).toMatch(/^units=imperial; Max-Age=\d+; Path=\/; HttpOnly; SameSite=Lax/)
    const sites = await service.app.inject(asVisitor({ url: '/sites', headers: { cookie: 'units=imperial' } }))
    expect(sites.body).toContain('1,706\u00a0ft above the sea')
    expect((await get('/sites?units=leagues')).headers['set-cookie']).toBeUndefined()
  })

  it('leads to the programme while there is none', async () => {
    const { desk } = fakeDesk()
    const bare = await testApp({ desk: { ...desk, tours: { ...desk.tours, current: () => undefined } } })
    const answer = await bare.app.inject(asHost({ url: `${own}/papers` }))
    expect([answer.statusCode, answer.headers.location]).toEqual([303, `${own}/programme`])
    await bare.app.close()
  })
})
