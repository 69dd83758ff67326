import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { FaultAsk } from '../../server/desk/fault-slices.ts'
import { readWordTables } from '../../server/web/language.ts'
import { faultAnswerText, missText } from '../../server/web/pages/fault-text.ts'
import { faultsPage } from '../../server/web/pages/faults.ts'
import { faultAsked } from '../../server/web/routes/fault-ask.ts'
import { createWords } from '../../server/words/words.ts'
import { A_FAULT, A_FINDING, AN_ASK } from '../support/fault-data.ts'
import { ENGLISH, GERMAN, VISITOR } from '../support/page-data.ts'
import { pagedApp } from '../support/paged-app.ts'
import { asVisitor, type TestApp } from '../support/web.ts'

const TYPED = {
  stage: 'before',
  first: '',
  second: '',
  aimed: 'moon',
  seen: 'off',
  side: '2,5',
  sideway: 'left',
  height: '',
  heightway: 'lower',
  unit: 'degrees',
}
const keysOf = (values: Readonly<Record<string, string>>) =>
  faultAsked({ ...TYPED, ...values }).problems.map(({ field, key }) => `${field} ${key}`)

describe('the question as it is typed', () => {
  it('is none before anything is sent', () => {
    expect(faultAsked({})).toEqual({ ask: null, problems: [] })
  })

  it('takes commas, sides and empty fields, and stars only as far as the set-up has come', () => {
    expect(faultAsked({ ...TYPED, first: 'hip1' }).ask).toEqual({
      stage: 'before',
      centredKeys: [],
      aimedKey: 'moon',
      seen: { kind: 'off', rightDeg: -2.5, upDeg: -0, noiseDeg: 0.5 },
    })
    expect(faultAsked({ ...TYPED, stage: 'one', first: 'hip1', second: 'hip2' }).ask?.centredKeys).toEqual(['hip1'])
  })

  it('takes fists for ten degrees each, and trusts them less', () => {
    const { ask } = faultAsked({ ...TYPED, unit: 'fists', side: '1', height: '0.5', heightway: 'higher' })
    expect(ask?.seen).toMatchObject({ rightDeg: -10, upDeg: 5, noiseDeg: 2.5 })
  })

  it('says what is missing or wrong, each at its field', () => {
    expect(keysOf({ stage: '' })).toEqual(['stage faults.needs-stage'])
    expect(keysOf({ stage: 'both' })).toEqual(['first faults.needs-star', 'second faults.needs-star'])
    expect(keysOf({ stage: 'both', first: 'hip1', second: 'hip1' })).toEqual(['second faults.needs-two'])
    expect(keysOf({ aimed: '' })).toEqual(['aimed faults.needs-aim'])
    expect(keysOf({ stage: 'one', first: 'moon' })).toEqual(['aimed faults.needs-other'])
    expect(keysOf({ seen: '' })).toEqual(['seen faults.needs-seen'])
    for (const side of ['x', '-1', '181', '1e9']) expect(keysOf({ side })).toEqual(['side faults.needs-number'])
    expect(keysOf({ side: '0' })).toEqual(['side faults.needs-miss'])
    expect(keysOf({ seen: 'lost', side: 'x' })).toEqual([])
  })
})

describe('the answer in words', () => {
  const answerTo = (ask: FaultAsk, finding = A_FINDING) => faultAnswerText(ENGLISH, ask, finding)

  it('says what cannot be told apart, what each would look like, and what to look at next', () => {
    const answer = answerTo(AN_ASK)
    expect(answer).toMatchObject({
      asked: 'After both centred stars, sent to Moon:',
      note: 'What you saw does not tell these 2 apart.',
      next: [
        'Send the mount to Vega.',
        'A wrong hour: then it stands in the middle.',
        'A finder that looks past the tube: then it stands 12° to the right and 3.5° lower.',
      ],
    })
    expect(answer?.causes.map(({ title, likely }) => `${title}, ${likely}`)).toEqual([
      'A wrong hour, likely',
      'A finder that looks past the tube, possible',
    ])
    expect(answer?.others.map(({ miss }) => miss)).toEqual(['It would stand in quite another part of the sky.'])
    expect(answer?.hidden).toContain('hide a wrong hour')
  })

  it('says that the sky does not tell, and that nothing explains it', () => {
    const [first] = A_FINDING.answer?.causes ?? []
    if (!first) throw new Error('The finding has a cause')
    const { things } = A_FINDING
    const noLook = answerTo(AN_ASK, { things, answer: { causes: A_FINDING.answer?.causes ?? [], next: null } })
    expect(noLook?.next).toEqual(['No look at the sky tells them apart. Read the entries of each aloud again.'])
    const alone = { ...first, isTied: false, share: 0.95 }
    expect(answerTo(AN_ASK, { things, answer: { causes: [alone], next: null } })).toMatchObject({
      note: null,
      next: [],
      causes: [{ likely: 'almost surely' }],
    })
    expect(answerTo(AN_ASK, { things, answer: { causes: [], next: null } })?.note).toContain('None of the usual')
    expect(answerTo(AN_ASK, { things, answer: null })).toBeNull()
  })

  it('writes misses to half a degree while they are small', () => {
    expect(missText(ENGLISH, { rightDeg: -3.4, upDeg: 0.1 })).toBe('3.5° to the left')
    expect(missText(ENGLISH, { rightDeg: 15.2, upDeg: -4.1 })).toBe('15° to the right and 4° lower')
    expect(missText(ENGLISH, { rightDeg: 0.1, upDeg: -0.2 })).toBe('in the middle')
  })
})

describe('the page', () => {
  let service: TestApp
  beforeAll(async () => {
    service = await pagedApp()
  })
  afterAll(() => service.app.close())
  const get = (query: string) => service.app.inject(asVisitor({ url: `/nights/night-1/faults${query}` }))

  it('keeps what was typed, also from one look to the other', () => {
    const page = faultsPage(VISITOR, A_FAULT)
    expect(page.lookLink.href).toContain('aimed=moon')
    expect(page.form.time).toBe('18:30')
    expect(page.form.stars[1]?.choices.find(({ isChosen }) => isChosen)?.text).toBe('Capella')
    expect(page.form.aimed.choices.map(({ label }) => label)).toEqual([
      'Moon and planets',
      'Bright stars',
      'Targets of tonight',
    ])
  })

  it('names what can be chosen in the language of the reader, in its alphabet', () => {
    const names = new Map([
      ['Moon', 'Mond'],
      ['Vega', 'Wega'],
      ['Capella', 'Ziege'],
    ])
    const words = createWords(readWordTables().de ?? {}, GERMAN.settings, names)
    const { form } = faultsPage({ ...VISITOR, words }, A_FAULT)
    const [bodies, stars] = form.aimed.choices
    expect(bodies?.choices.map(({ text }) => text)).toContain('Mond')
    expect(stars?.choices.map(({ text }) => text)).toEqual(['Wega', 'Ziege'])
  })

  it('asks anyone, answers without a script, and says what is wrong with a question', async () => {
    const asked = await get('')
    expect(asked.statusCode).toBe(200)
    expect(asked.body).toContain('Before the first star')
    expect(asked.body).not.toContain('id="answer"')
    const answered = await get(`?${new URLSearchParams({ ...TYPED, at: '19:10' })}`)
    expect(answered.body).toContain('A wrong hour')
    expect(answered.body).toContain('value="19:10"')
    expect((await get('?stage=before&aimed=&seen=')).body).toContain('Choose what you saw.')
    expect((await get('?at=25:00')).statusCode).toBe(422)
    expect((await service.app.inject(asVisitor({ url: '/nights/none/faults' }))).statusCode).toBe(404)
  })
})
