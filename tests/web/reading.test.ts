import { beforeEach, describe, expect, it } from 'vitest'
import { pagedApp } from '../support/paged-app.ts'
import { asHost, asVisitor, formPost, type TestApp } from '../support/web.ts'

let service: TestApp
beforeEach(async () => {
  service = await pagedApp()
})

const get = (url: string, cookie = '') => service.app.inject(asVisitor({ url, headers: { cookie } }))
const post = (chosen: Record<string, string>, as = asHost) => service.app.inject(as(formPost('/reading', chosen)))
const chosenIn = (body: string) => [...body.matchAll(/value="([\w-]+)" checked/g)].map(([, value]) => value)

describe('how somebody reads', () => {
  it('is English, metric and 24 hours until somebody has chosen', async () => {
    const { body } = await get('/reading')
    expect(chosenIn(body)).toEqual(['en', 'metric', '24'])
    expect(body).toContain('<html lang="en"')
    expect(body).not.toContain('formmethod="post"')
  })

  it('is what they choose, at once and afterwards, and for them alone', async () => {
    const answer = await get('/reading?lang=de&units=imperial&hours=12&from=%2Fnights')
    expect(chosenIn(answer.body)).toEqual(['de', 'imperial', '12'])
    expect(answer.body).toContain('<html lang="de"')
    expect(answer.body).toContain('<a class="button" href="/nights">Zurück zur Seite von vorhin</a>')
    const cookie = answer.cookies.map(({ name, value }) => `${name}=${value}`).join('; ')
    expect(cookie).toBe('lang=de; units=imperial; hours=12')
    expect((await get('/nights', cookie)).body).toContain('<html lang="de"')
    expect((await get('/nights')).body).toContain('<html lang="en"')
  })

  it('takes no notice of what it does not offer', async () => {
    const answer = await get('/reading?lang=xx&units=cubits&hours=25')
    expect(chosenIn(answer.body)).toEqual(['en', 'metric', '24'])
    expect(answer.cookies).toEqual([])
  })

  it.each([
    '//elsewhere.example',
    'https://elsewhere.example',
    '/\\elsewhere.example',
    'javascript:alert(1)',
    '/a b"c',
  ])('sends nobody to %s', async (from) => {
    const { body } = await get(`/reading?lang=de&from=${encodeURIComponent(from)}`)
    expect(body).toContain('<a class="button" href="/">')
    expect(body).not.toContain('elsewhere')
  })

  it('is a link on every page, which leads back to that page as it was asked for', async () => {
    expect((await get('/objects?kind=galaxy&lang=de')).body).toContain(
      'href="/reading?from&#x3D;%2Fobjects%3Fkind%3Dgalaxy"',
    )
  })
})

it('is chosen by the lamp where the page before was read by it', async () => {
  const { body } = await get('/objects/m13?look=lamp')
  const [, href = ''] = /href="(\/reading[^"]*)"/.exec(body) ?? []
  const way = href.replaceAll('&#x3D;', '=').replaceAll('&amp;', '&')
  expect(way).toBe('/reading?from=%2Fobjects%2Fm13%3Flook%3Dlamp&look=lamp')
  expect((await get(way)).body).toContain('data-look="lamp"')
})

describe('how everybody reads who has chosen nothing', () => {
  it('is for the host to say', async () => {
    expect((await service.app.inject(asHost({ url: '/reading' }))).body).toContain('formmethod="post"')
    const answer = await post({ lang: 'de', units: 'both', hours: '12', from: '/nights' })
    expect([answer.statusCode, answer.headers.location]).toEqual([303, '/reading?from=%2Fnights'])
    expect(chosenIn((await get('/reading')).body)).toEqual(['de', 'both', '12'])
    expect(chosenIn((await get('/reading', 'lang=en; hours=24')).body)).toEqual(['en', 'both', '24'])
  })

  it('is not for anybody else, and nothing that is not offered', async () => {
    expect((await post({ lang: 'de', units: 'both', hours: '12' }, asVisitor)).statusCode).toBe(403)
    expect((await post({ lang: 'xx', units: 'both', hours: '' })).statusCode).toBe(422)
    expect(service.desk.reading.usual()).toEqual({ language: 'en', hours12: false, units: 'metric' })
  })
})
