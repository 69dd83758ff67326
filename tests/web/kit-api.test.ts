import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { SITE_DRAFT, TELESCOPE_DRAFT } from '../support/field-data.ts'
import { asHost, asVisitor, type TestApp, testApp } from '../support/web.ts'

let service: TestApp
beforeAll(async () => {
  service = await testApp()
})
afterAll(() => service.app.close())

const put = (url: string, payload: object, as = asHost) => service.app.inject(as({ method: 'PUT', url, payload }))
const read = async (url: string) => (await service.app.inject(asVisitor({ url }))).json()

const FACTORS = [{ name: '2x Barlow', factor: 2 }]
const KIT = [
  ['/api/sites/site-1', { ...SITE_DRAFT, name: 'Hill', skyMag: 18.6 }, 'latitudeDeg', 'fault.no-site'],
  ['/api/telescopes/telescope-1', { ...TELESCOPE_DRAFT, name: 'New', factors: FACTORS }, 'tubes', 'fault.no-telescope'],
] as const

describe('changing the kit through the API', () => {
  it.each(KIT)('puts %s in place of what was there', async (url, draft) => {
    const answer = await put(url, draft)
    expect(answer.statusCode).toBe(200)
    expect(answer.json()).toMatchObject(draft)
    expect(await read(url)).toEqual(answer.json())
  })

  it.each(KIT)(
    'names the field of %s that is missing, knows no other field, and changes nothing',
    async (url, draft, field) => {
      const before = JSON.stringify(service.kept)
      const missing = await put(url, { ...draft, [field]: undefined })
      expect(missing.statusCode).toBe(422)
      expect(missing.json().error.problems.map((problem: { field: string }) => problem.field)).toEqual([field])
      const unknown = await put(url, { ...draft, colour: 'green' })
      expect(unknown.json().error.problems).toMatchObject([{ field: 'colour', code: 'problem.unknown-field' }])
      expect(JSON.stringify(service.kept)).toBe(before)
    },
  )

  it.each(KIT)('leaves %s to the host, and finds none under another id', async (url, draft, _field, code) => {
    const before = JSON.stringify(service.kept)
    expect((await put(url, draft, asVisitor)).statusCode).toBe(403)
    const lost = await put(url.replace(/-1$/, '-9'), draft)
    expect([lost.statusCode, lost.json().error.code]).toEqual([404, code])
    expect(JSON.stringify(service.kept)).toBe(before)
  })

  it('puts a telescope away and takes it out again, with all that is known of it', async () => {
    const finder = { kind: 'straight', fieldDeg: 7, powerX: 6 }
    await put('/api/telescopes/telescope-1', { ...TELESCOPE_DRAFT, finder, inKitSince: 2004, note: 'Heavy' })
    const act = (name: string, as = asHost) =>
      service.app.inject(as({ method: 'POST', url: `/api/telescopes/telescope-1/${name}` }))
    expect((await act('put-away', asVisitor)).statusCode).toBe(403)
    expect((await act('put-away')).json()).toMatchObject({ isPutAway: true })
    const { telescopes } = await read('/api/telescopes')
    expect(telescopes[0]).toMatchObject({ finder, inKitSince: 2004, note: 'Heavy', isPutAway: true })
    expect((await act('take-out')).json().isPutAway).not.toBe(true)
  })

  it('refuses a factor of 0 by its place in the list', async () => {
    const answer = await put('/api/telescopes/telescope-1', { ...TELESCOPE_DRAFT, factors: [{ name: 'x', factor: 0 }] })
    expect(answer.json().error.problems).toMatchObject([{ field: 'factors.0.factor', code: 'problem.range' }])
  })
})
