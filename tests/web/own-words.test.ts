import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest'
import { pagedApp } from '../support/paged-app.ts'
import { asHost, asVisitor, formPost, type TestApp } from '../support/web.ts'

let service: TestApp
beforeAll(async () => {
  service = await pagedApp()
})
afterAll(() => service.app.close())
afterEach(() => {
  for (const language of ['de', 'en']) service.desk.words.takeBack('m13', language)
})

const get = (url: string, as = asHost) => service.app.inject(as({ url }))
const post = (url: string, values: Record<string, string> = {}, as = asHost) =>
  service.app.inject(as(formPost(url, values)))
const PAGE = '/objects/m13/words'

describe('the page of words', () => {
  it('keeps what the host writes, shows it to everyone in its language, and takes it back', async () => {
    const kept = await post(`${PAGE}?language=DE`, { see: 'Ein runder\nNebel.', more: '' })
    expect([kept.statusCode, kept.headers.location]).toEqual([303, `${PAGE}?language=de`])
    expect(service.desk.objects.story('m13', 'de')?.see).toBe('Ein runder Nebel.')
    const form = (await get(`${PAGE}?language=de`)).body
    expect(form).toMatch(/<textarea id="field-see"[^>]* lang="de"[^>]*>Ein runder Nebel\.<\/textarea>/)
    expect(form).toContain('The first five parts have 3 words together; 70 fit on a card.')
    const read = (await get(`${PAGE}?language=de`, asVisitor)).body
    expect(read).toContain('<dd lang="de">Ein runder Nebel.</dd>')
    expect(read).not.toContain('<textarea')
    expect((await post(`${PAGE}/back?language=de`)).statusCode).toBe(303)
    expect(service.desk.objects.story('m13', 'de')).toBeUndefined()
    expect((await get(`${PAGE}?language=de`, asVisitor)).body).toContain('Nothing is told in German yet.')
  })

  it('says how many words are too many, and keeps them in the form', async () => {
    const long = Array.from({ length: 71 }, () => 'a').join(' ')
    const answer = await post(`${PAGE}?language=en`, { see: long, answer: 'x'.repeat(181) })
    expect(answer.statusCode).toBe(422)
    expect(answer.body).toMatch(/id="field-answer-problem">It is too long: 180 letters at most\./)
    const words = await post(`${PAGE}?language=en`, { see: long })
    expect(words.body).toContain('have 71 words together; 70 are the most. Shorten them.')
    expect(words.body).toContain(`>${long}</textarea>`)
    expect(service.desk.words.of('m13', 'en').own).toEqual({})
  })

  it('opens in the language asked for, in that of the reader, or says that there is none such', async () => {
    expect((await get(PAGE)).body).toContain('Your words in English')
    expect((await get(`${PAGE}?language=cy`)).body).toContain('Your words in Welsh')
    const strange = await get(`${PAGE}?language=klingon`)
    expect(strange.statusCode).toBe(422)
    expect((await get(`${PAGE}?language=${'x'.repeat(500)}`)).body).toContain('Write the code of a language')
    expect(strange.body).toMatch(/value="klingon"[^>]*aria-invalid="true"/)
    expect((await post(`${PAGE}?language=klingon`, { see: 'x' })).statusCode).toBe(422)
    const alias = await get('/objects/ngc6205/words?language=de')
    expect([alias.statusCode, alias.headers.location]).toEqual([308, `${PAGE}?language=de`])
    expect((await get('/objects/nothing/words')).statusCode).toBe(404)
  })

  it('is written by the host alone', async () => {
    expect((await post(`${PAGE}?language=de`, { see: 'x' }, asVisitor)).statusCode).toBe(403)
    expect((await post(`${PAGE}/back?language=de`, {}, asVisitor)).statusCode).toBe(403)
    expect(service.desk.words.languages()).toEqual(['en'])
  })
})

describe('words for one night', () => {
  const NIGHT = 'night-1'
  const tonight = `${PAGE}?language=de&night=${NIGHT}`
  const always = `${tonight}&for=always`
  afterEach(() => service.desk.words.takeBack('m13', 'de', NIGHT))

  it('are chosen beside those for every night, win over them, and give way when they are taken back', async () => {
    await post(always, { see: 'Ein Ball.', how: 'Daneben.' })
    const kept = await post(tonight, { see: 'Ein Schwarm.', how: 'Daneben.' })
    expect([kept.statusCode, kept.headers.location]).toEqual([303, tonight])
    expect(service.desk.words.of('m13', 'de', NIGHT).own).toEqual({ see: 'Ein Schwarm.' })
    expect(service.desk.words.of('m13', 'de').own).toEqual({ see: 'Ein Ball.', how: 'Daneben.' })
    const form = (await get(tonight)).body
    expect(form).toContain('Your words in German, for this night alone')
    expect(form).toMatch(/aria-current="true">For “[^<]+” alone</)
    expect(form).toMatch(/Otherwise: <span lang="de">Ein Ball\.</)
    expect(form).toContain(`href="/nights/${NIGHT}/print/cards"`)
    expect((await get(always)).body).toMatch(/aria-current="true">For every night<.*>Ein Ball\.<\/textarea>/s)
    expect((await post(`${PAGE}/back?language=de&night=${NIGHT}`)).headers.location).toBe(tonight)
    expect(service.desk.objects.story('m13', 'de', NIGHT)?.see).toBe('Ein Ball.')
  })

  it('are read by everyone, written by the host, and need a night that there is', async () => {
    await post(tonight, { see: 'Ein Schwarm.' })
    const read = (await get(tonight, asVisitor)).body
    expect(read).toContain('<dd lang="de">Ein Schwarm.</dd>')
    expect(read).not.toContain('For every night')
    expect((await get(`${PAGE}?language=de`, asVisitor)).body).not.toContain('Ein Schwarm.')
    expect((await post(tonight, { see: 'x' }, asVisitor)).statusCode).toBe(403)
    expect((await get(`${PAGE}?night=nowhere`)).statusCode).toBe(404)
    expect((await post(`${PAGE}?language=de&night=nowhere`, { see: 'x' })).statusCode).toBe(404)
    const alias = await get(`/objects/ngc6205/words?language=de&night=${NIGHT}`)
    expect(alias.headers.location).toBe(tonight)
  })

  it('stand on the cards of that night, in the first language and in the second, which say whose they are', async () => {
    const printed = async () => (await get(`/nights/${NIGHT}/print/cards?backs=no&second=de`, asVisitor)).body
    expect(await printed()).not.toContain('Words by the host.')
    await post(`${PAGE}?language=en&night=${NIGHT}`, { see: 'A swarm of lights.' })
    await post(tonight, { see: 'Ein Schwarm.' })
    const cards = await printed()
    expect(cards).toContain('<p class="see">A swarm of lights.</p>')
    expect(cards).toMatch(/<div class="second" lang="de"><p>Ein Schwarm\.<\/p>/)
    expect(cards).toMatch(/Programme version \d+\. (Out of date: print anew\. )?Words by the host\./)
    service.desk.words.takeBack('m13', 'en', NIGHT)
  })

  it('are kept with a long sentence, which the form names', async () => {
    const long = `${Array.from({ length: 21 }, () => 'wort').join(' ')}.`
    expect((await post(tonight, { see: 'Kurz. Ganz kurz.', answer: long })).statusCode).toBe(303)
    const form = (await get(tonight)).body
    expect(form).toContain('“If they ask” has a sentence of 21 words.')
    expect(form).not.toContain('“Before the look” has a sentence')
  })
})

describe('words through the API', () => {
  const url = '/api/objects/m13/words/de'
  const put = (payload: object, as = asHost) => service.app.inject(as({ method: 'PUT', url, payload }))

  it('are put, read and taken back', async () => {
    const kept = await put({ see: 'Ein Nebel.' })
    expect(kept.json()).toMatchObject({ language: 'de', shipped: null, own: { see: 'Ein Nebel.' } })
    expect((await get(url, asVisitor)).json()).toEqual(kept.json())
    expect((await get('/api/objects/m13?lang=en', asVisitor)).json().story).toBeNull()
    expect((await service.app.inject(asHost({ method: 'DELETE', url }))).statusCode).toBe(204)
    expect((await get(url)).json().own).toEqual({})
  })

  it.each([
    [{ see: 'x'.repeat(181) }, 'see', 'problem.too-long'],
    [{ face: 'x' }, 'face', 'problem.unknown-field'],
  ])('are refused with the field named: %#', async (draft, field, code) => {
    const answer = await put(draft)
    expect(answer.statusCode).toBe(422)
    expect(answer.json().error.problems).toMatchObject([{ field, code }])
  })

  it('are left to the host', async () => {
    expect((await put({ see: 'x' }, asVisitor)).statusCode).toBe(403)
    expect((await service.app.inject(asVisitor({ method: 'DELETE', url }))).statusCode).toBe(403)
  })
})
