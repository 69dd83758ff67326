import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { angleOf } from '../../server/web/routes/own-object-draft.ts'
import { A_COMET_DRAFT, A_NOVA_DRAFT } from '../support/own-object-data.ts'
import { asHost, asVisitor, type TestApp, testApp } from '../support/web.ts'

let service: TestApp
beforeAll(async () => {
  service = await testApp()
})
afterAll(() => service.app.close())

const URL_OWN = '/api/objects/own'
const send = (payload: object, as = asHost) => service.app.inject(as({ method: 'POST', url: URL_OWN, payload }))
const remove = (key: string, as = asHost) => service.app.inject(as({ method: 'DELETE', url: `${URL_OWN}/${key}` }))
const listed = async (): Promise<{ key: string; name: string; raDeg: number; decDeg: number }[]> =>
  (await service.app.inject(asVisitor({ url: URL_OWN }))).json().objects
const post = (url: string, values: Record<string, string> = {}, as = asHost) =>
  service.app.inject(
    as({
      method: 'POST',
      url,
      headers: { 'content-type': 'application/x-www-form-urlencoded' },
      payload: new URLSearchParams(values).toString(),
    }),
  )
const clear = async () => {
  for (const { key } of await listed()) await remove(key)
}

describe('a comet through the API', () => {
  it('is put on the list, found under its address, and taken off again', async () => {
    const made = await send(A_COMET_DRAFT)
    expect(made.statusCode).toBe(201)
    const { key } = made.json()
    expect(made.headers.location).toBe(`/api/objects/${key}`)
    expect(await listed()).toEqual([made.json()])
    const found = await service.app.inject(asVisitor({ url: `/api/objects/${key}` }))
    expect(found.json()).toMatchObject({ object: { name: A_COMET_DRAFT.name }, isOutreach: true, story: null })
    expect((await remove(key)).statusCode).toBe(204)
    expect(await listed()).toEqual([])
    const again = await remove(key)
    expect([again.statusCode, again.json().error.code]).toEqual([404, 'fault.no-object'])
  })

  it.each([
    ['beyond the pole', { ...A_COMET_DRAFT, decDeg: 91 }, 'decDeg', 'problem.range'],
    ['with hours as text', { ...A_COMET_DRAFT, raDeg: '5h35m' }, 'raDeg', 'problem.type'],
    ['without a coma', { ...A_COMET_DRAFT, comaArcmin: undefined }, 'comaArcmin', 'problem.required'],
    ['of another kind', { ...A_COMET_DRAFT, kind: 'moon' }, 'kind', 'problem.choice'],
    ['with a field that nobody asked for', { ...A_COMET_DRAFT, key: 'own-x' }, 'key', 'problem.unknown-field'],
    ['that is a star with a coma', { ...A_NOVA_DRAFT, comaArcmin: 3 }, 'comaArcmin', 'problem.star-with-coma'],
  ])('is refused %s, and the field is named', async (_what, draft, field, code) => {
    const answer = await send(draft)
    expect(answer.statusCode).toBe(422)
    expect(answer.json().error.problems).toMatchObject([{ field, code }])
    expect(await listed()).toEqual([])
  })

  it('is left to the host', async () => {
    expect((await send(A_COMET_DRAFT, asVisitor)).statusCode).toBe(403)
    expect((await remove('own-1', asVisitor)).statusCode).toBe(403)
    expect(await listed()).toEqual([])
  })
})

describe('a comet through the form', () => {
  const { raDeg: _ra, decDeg: _dec, ...rest } = A_COMET_DRAFT
  const texts = Object.fromEntries(Object.entries(rest).map(([name, value]) => [name, String(value)]))
  const TYPED = { ...texts, raDeg: '5h35.3m', decDeg: '-5d23m' }

  it('is kept with its place in degrees, and removed by a plain form', async () => {
    await clear()
    const made = await post('/extras', TYPED)
    expect([made.statusCode, made.headers.location]).toEqual([303, '/extras'])
    const [comet] = await listed()
    expect(comet?.raDeg).toBeCloseTo(83.825, 9)
    expect(comet?.decDeg).toBeCloseTo(-5.38333, 4)
    expect((await post(`/extras/${comet?.key}/remove`, {}, asVisitor)).statusCode).toBe(403)
    expect((await post(`/extras/${comet?.key}/remove`)).statusCode).toBe(303)
    expect(await listed()).toEqual([])
  })

  it('comes back unkept when it is wrong, and leaves a star its empty coma', async () => {
    await clear()
    for (const wrong of [{ raDeg: 'north' }, { magnitude: '' }, { condensation: '12' }, { name: ' ' }]) {
      expect((await post('/extras', { ...TYPED, ...wrong })).statusCode).toBe(422)
    }
    expect(await listed()).toEqual([])
    expect((await post('/extras', { ...TYPED, kind: 'star', condensation: '4', comaArcmin: '' })).statusCode).toBe(303)
    expect(await listed()).toMatchObject([{ kind: 'star', condensation: null, majorArcmin: null }])
  })

  it('is read by everyone and typed in by the host alone', async () => {
    expect((await service.app.inject(asVisitor({ url: '/extras' }))).statusCode).toBe(200)
    expect((await post('/extras', TYPED, asVisitor)).statusCode).toBe(403)
  })
})

describe('an angle as people write it', () => {
  it('is degrees, or hours or degrees with minutes and seconds', () => {
    expect(angleOf('83,82', 'h')).toBe(83.82)
    expect(angleOf('5h 35m 17.3s', 'h')).toBeCloseTo(83.82208, 5)
    expect(angleOf('12H', 'h')).toBe(180)
    expect(angleOf('−5° 23′ 28″', 'd')).toBeCloseTo(-5.39111, 5)
    expect(angleOf('-0d30m', 'd')).toBe(-0.5)
    expect(angleOf('+41d16,2m', 'd')).toBeCloseTo(41.27, 9)
  })

  it.each([
    ['5h60m', 'h'],
    ['5d23m', 'h'],
    ['5h23m', 'd'],
    ['', 'd'],
    ['5h35.3', 'h'],
    ['north', 'd'],
  ] as const)('is not %s where %s is asked for', (text, unit) => {
    expect(angleOf(text, unit)).toBeNaN()
  })
})
