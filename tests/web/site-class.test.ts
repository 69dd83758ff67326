import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { skyMagOfClass } from '../../server/sight/site-light.ts'
import { SITE_DRAFT } from '../support/field-data.ts'
import { asHost, asVisitor, type TestApp, testApp } from '../support/web.ts'

let service: TestApp
beforeAll(async () => {
  service = await testApp()
})
afterAll(() => service.app.close())

const { skyMag: _skyMag, ...BARE } = SITE_DRAFT
const WAYS = [
  ['POST', '/api/sites', 201],
  ['PUT', '/api/sites/site-1', 200],
] as const

describe.each(WAYS)('a site by %s', (method, url, status) => {
  const send = (payload: object) => service.app.inject(asHost({ method, url, payload }))
  const problemsTo = async (payload: object) => {
    const before = JSON.stringify(service.kept)
    const answer = await send(payload)
    expect([answer.statusCode, JSON.stringify(service.kept) === before]).toEqual([422, true])
    return answer.json().error.problems.map(({ field, code }: { field: string; code: string }) => `${field} ${code}`)
  }

  it('may give a class of its sky, and is answered the brightness of that class', async () => {
    const answer = await send({ ...BARE, skyClass: 4 })
    expect(answer.statusCode).toBe(status)
    expect(answer.json().skyMag).toBe(skyMagOfClass(4))
    expect(answer.json()).not.toHaveProperty('skyClass')
    const kept = await service.app.inject(asVisitor({ url: `/api/sites/${answer.json().id}` }))
    expect(kept.json()).toEqual(answer.json())
    expect((await send({ ...BARE, skyMag: 20.4 })).json().skyMag).toBe(20.4)
  })

  it('gives one of the two, not both and not neither', async () => {
    expect(await problemsTo({ ...SITE_DRAFT, skyClass: 4 })).toEqual(['skyClass problem.said-twice'])
    expect(await problemsTo(BARE)).toEqual(['skyMag problem.required'])
    expect(await problemsTo({ ...BARE, latitudeDeg: 91 })).toEqual([
      'latitudeDeg problem.range',
      'skyMag problem.required',
    ])
  })

  it('gives a class from 1 to 9', async () => {
    expect(await problemsTo({ ...BARE, skyClass: 10 })).toEqual(['skyClass problem.range'])
    expect(await problemsTo({ ...BARE, skyClass: 0 })).toEqual(['skyClass problem.range'])
    expect(await problemsTo({ ...BARE, skyClass: 'dark' })).toMatchObject([/^skyClass problem\.type/])
    expect(await problemsTo({ ...SITE_DRAFT, skyMag: 30 })).toEqual(['skyMag problem.range'])
    expect(await problemsTo([])).toHaveLength(1)
  })

  it('is described so in the document', async () => {
    const { paths } = (await service.app.inject(asVisitor({ url: '/api/openapi.json' }))).json()
    const path = method === 'POST' ? url : '/api/sites/{id}'
    const { schema } = paths[path][method.toLowerCase()].requestBody.content['application/json']
    expect(schema.properties.skyClass).toMatchObject({ minimum: 1, maximum: 9 })
    expect(schema.properties.skyClass.description).toContain('skyMag')
    expect(schema.properties.skyMag.description).toContain('skyClass')
    expect(schema.required).not.toContain('skyMag')
  })
})
