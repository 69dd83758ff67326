import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest'
import { angleOf, ownObjectDraftOf, ownObjectValues } from '../../server/web/routes/own-object-draft.ts'
import { A_NIGHT } from '../support/field-data.ts'
import {
  A_CLUSTER_DRAFT,
  A_COMET_DRAFT,
  A_DOUBLE_DRAFT,
  A_GALAXY_DRAFT,
  A_NOVA_DRAFT,
  A_PASS_DRAFT,
  A_PATTERN_DRAFT,
} from '../support/own-object-data.ts'
import { ENGLISH } from '../support/page-data.ts'
import { pagedApp } from '../support/paged-app.ts'
import { filledIn } from '../support/typed-form.ts'
import { asHost, asVisitor, formPost, type TestApp } from '../support/web.ts'

let service: TestApp
beforeAll(async () => {
  service = await pagedApp()
})
afterAll(() => service.app.close())
afterEach(() => {
  for (const { key, isListed } of service.desk.own.all()) if (isListed) service.desk.own.retire(key)
})

const URL_OWN = '/api/objects/own'
const send = (payload: object, as = asHost) => service.app.inject(as({ method: 'POST', url: URL_OWN, payload }))
const put = (key: string, payload: object, as = asHost) =>
  service.app.inject(as({ method: 'PUT', url: `${URL_OWN}/${key}`, payload }))
const remove = (key: string, as = asHost) => service.app.inject(as({ method: 'DELETE', url: `${URL_OWN}/${key}` }))
const get = (url: string, as = asHost) => service.app.inject(as({ url }))
const listed = () => service.desk.own.all().filter(({ isListed }) => isListed)
const post = (url: string, values: Record<string, string> = {}, as = asHost) =>
  service.app.inject(as(formPost(url, values)))

describe('a thing of the host through the API', () => {
  it('is put on the list, found under its address, changed, taken off and put back', async () => {
    const made = await send(A_COMET_DRAFT)
    expect(made.statusCode).toBe(201)
    const { key } = made.json()
    expect(made.headers.location).toBe(`${URL_OWN}/${key}`)
    expect((await get(`${URL_OWN}/${key}`, asVisitor)).json()).toEqual(made.json())
    const found = await get(`/api/objects/${key}`, asVisitor)
    expect(found.json()).toMatchObject({ object: { name: A_COMET_DRAFT.name }, isOutreach: true, story: null })

    const changed = await put(key, { ...A_COMET_DRAFT, magnitude: 5 })
    expect([changed.statusCode, changed.json().object.magnitude]).toEqual([200, 5])
    expect((await remove(key)).statusCode).toBe(204)
    const things = (await get(URL_OWN, asVisitor)).json().things
    expect(things.find((it: { key: string }) => it.key === key)).toMatchObject({ isListed: false })
    const again = await remove(key)
    expect([again.statusCode, again.json().error.code]).toEqual([404, 'fault.no-object'])
    const back = await service.app.inject(asHost({ method: 'POST', url: `${URL_OWN}/${key}/back` }))
    expect(back.json()).toMatchObject({ key, isListed: true })
    expect((await get(`${URL_OWN}/m13`)).statusCode).toBe(404)
  })

  it.each([
    ['beyond the pole', { ...A_COMET_DRAFT, decDeg: 91 }, 'decDeg', 'problem.range'],
    ['with hours as text', { ...A_COMET_DRAFT, raDeg: '5h35m' }, 'raDeg', 'problem.type'],
    ['without a coma', { ...A_COMET_DRAFT, majorArcmin: undefined }, 'majorArcmin', 'problem.required'],
    ['of another kind', { ...A_COMET_DRAFT, kind: 'moon' }, 'kind', 'problem.choice'],
    ['with a field that nobody asked for', { ...A_COMET_DRAFT, key: 'own-x' }, 'key', 'problem.unknown-field'],
    ['that is a star with a size', { ...A_NOVA_DRAFT, majorArcmin: 3 }, 'majorArcmin', 'problem.not-of-kind'],
    ['that passes by no clock', { ...A_PASS_DRAFT, fromAt: '2026-11-20 19:12' }, 'fromAt', 'problem.pattern'],
  ])('is refused %s, and the field is named', async (_what, draft, field, code) => {
    for (const answer of [await send(draft), await put(service.desk.own.add(A_CLUSTER_DRAFT).key, draft)]) {
      expect(answer.statusCode).toBe(422)
      expect(answer.json().error.problems).toMatchObject([{ field, code }])
    }
    expect(listed().map(({ draft: { name } }) => name)).toEqual([A_CLUSTER_DRAFT.name])
  })

  it('is left to the host', async () => {
    const { key } = service.desk.own.add(A_COMET_DRAFT)
    expect((await send(A_NOVA_DRAFT, asVisitor)).statusCode).toBe(403)
    expect((await put(key, A_NOVA_DRAFT, asVisitor)).statusCode).toBe(403)
    expect((await remove(key, asVisitor)).statusCode).toBe(403)
    expect(listed().map(({ draft }) => draft)).toEqual([A_COMET_DRAFT])
  })
})

const reading = { words: ENGLISH, nights: [A_NIGHT] }

describe('a thing through its form', () => {
  it.each([
    A_COMET_DRAFT,
    A_NOVA_DRAFT,
    A_CLUSTER_DRAFT,
    A_GALAXY_DRAFT,
    A_DOUBLE_DRAFT,
    A_PATTERN_DRAFT,
    A_PASS_DRAFT,
  ])('of the kind $kind is kept as typed, and comes back into the form as it was', async (draft) => {
    const typed = ownObjectValues(draft, reading)
    expect((await post('/extras', typed)).statusCode).toBe(303)
    const [thing] = listed()
    expect(thing?.draft).toEqual(draft)
    const form = filledIn((await get(`/extras/${thing?.key}/edit`)).body)
    expect(Object.fromEntries(Object.entries(form).filter(([, text]) => text !== ''))).toEqual(
      Object.fromEntries(Object.entries(typed).map(([name, text]) => [name, text.replaceAll("'", '&#x27;')])),
    )
    expect((await post(`/extras/${thing?.key}`, { ...typed, magnitude: '2,5' })).statusCode).toBe(303)
    expect(service.desk.own.find(thing?.key ?? '').draft).toEqual({ ...draft, magnitude: 2.5 })
  })

  it('takes hours and minutes, the clocks of the night, and compass points in short', async () => {
    const { raDeg: _ra, decDeg: _dec, ...comet } = ownObjectValues(A_COMET_DRAFT, reading)
    await post('/extras', { ...comet, raDeg: '5h35.3m', decDeg: "-5° 23'" })
    expect(listed()[0]?.draft.raDeg).toBeCloseTo(83.825, 9)
    expect(listed()[0]?.draft.decDeg).toBeCloseTo(-5.38333, 4)
    const pass = ownObjectValues(A_PASS_DRAFT, reading)
    const draft = ownObjectDraftOf({ ...pass, fromAt: '2026-11-20 19:12', fromPoint: 'NNW', toPoint: '359' }, reading)
    expect(draft).toMatchObject({ fromAt: '2026-11-20T18:12:00.000Z', fromPoint: 15, toPoint: 0 })
  })

  it('comes back unkept with everything typed and every mistake beside its field', async () => {
    const typed = {
      kind: 'galaxy',
      raDeg: 'north',
      decDeg: '41,3',
      magnitude: '',
      majorArcmin: 'big',
      condensation: '4',
      distanceLy: '12,500',
      appeal: '0.5',
      appealReason: '<b>ours</b>',
    }
    const answer = await post('/extras', typed)
    expect(answer.statusCode).toBe(422)
    const form = filledIn(answer.body)
    expect(form).toMatchObject({
      kind: 'galaxy',
      raDeg: 'north',
      decDeg: '41,3',
      majorArcmin: 'big',
      condensation: '4',
    })
    const said = (field: string) =>
      new RegExp(`id="field-${field}-problem">([^<]*)<`).exec(answer.body)?.[1]?.replaceAll('&#x27;', "'")
    expect(said('name')).toBe('This is missing.')
    expect(said('raDeg')).toMatch(/^Write degrees such as 83\.82/)
    expect(said('magnitude')).toBe('This is missing.')
    expect(said('majorArcmin')).toBe('Write a number here.')
    expect(said('condensation')).toMatch(/^This kind has none/)
    expect(said('distanceLy')).toMatch(/without marks between the thousands/)
    expect(answer.body).toMatch(
      /id="field-raDeg"[^>]*aria-describedby="field-raDeg-hint field-raDeg-problem" aria-invalid="true"/,
    )
    expect(answer.body).toContain('&lt;b&gt;ours')
    expect(listed()).toEqual([])
  })

  it('is judged by the fields of its kind alone where a script shows no others, and all of them come back', async () => {
    const star = { name: 'Our Ember', kind: 'star', magnitude: '5', raDeg: '10', decDeg: '20', appeal: '0.5' }
    const typed = { ...star, appealReason: 'Red', majorArcmin: 'wide', condensation: '4', ofKind: 'true' }
    const wrong = await post('/extras', { ...typed, raDeg: '' })
    expect(wrong.statusCode).toBe(422)
    expect(wrong.body.match(/id="field-[a-zA-Z]*-problem"/g)).toEqual(['id="field-raDeg-problem"'])
    expect(filledIn(wrong.body)).toMatchObject({ majorArcmin: 'wide', condensation: '4' })
    expect((await post('/extras', typed)).statusCode).toBe(303)
    expect(Object.keys(listed()[0]?.draft ?? {})).not.toContain('majorArcmin')
    const without = await post('/extras', { ...typed, name: 'Our Coal', ofKind: '' })
    expect(without.body).toMatch(/id="field-majorArcmin-problem">This kind has none/)
  })

  it('says how the time of a pass is written, and that no night has it', async () => {
    const pass = ownObjectValues(A_PASS_DRAFT, reading)
    const answer = await post('/extras', { ...pass, fromAt: 'tonight', toAt: '2026-12-24 19:00' })
    expect(answer.body).toMatch(/id="field-fromAt-problem">Write date and time/)
    expect(answer.body).toMatch(/id="field-toAt-problem">No one night is planned/)
  })

  it('is taken off and put back by plain forms, and stays off when its name is taken', async () => {
    const { key } = service.desk.own.add(A_COMET_DRAFT)
    expect((await post(`/extras/${key}/remove`, {}, asVisitor)).statusCode).toBe(403)
    expect((await post(`/extras/${key}/remove`)).statusCode).toBe(303)
    expect((await get('/extras')).body).toContain(`action="/extras/${key}/back"`)
    expect((await get('/extras', asVisitor)).body).not.toContain(`/extras/${key}`)
    expect((await post(`/extras/${key}/back`)).statusCode).toBe(303)
    service.desk.own.retire(key)
    service.desk.own.add(A_COMET_DRAFT)
    const taken = await post(`/extras/${key}/back`)
    expect([taken.statusCode, taken.body.includes('already called Comet Häberli')]).toEqual([422, true])
  })

  it('is read by everyone and typed in by the host alone', async () => {
    service.desk.own.add(A_PASS_DRAFT)
    const page = await get('/extras', asVisitor)
    expect(page.statusCode).toBe(200)
    expect(page.body).toMatch(/19:12 to 19:18, from west to east-north-east, magnitude -3\.1/)
    for (const url of ['/extras/new', '/extras/import']) expect((await get(url, asVisitor)).statusCode).toBe(403)
    expect((await post('/extras', ownObjectValues(A_NOVA_DRAFT, reading), asVisitor)).statusCode).toBe(403)
  })
})

describe('an angle as people write it', () => {
  it('is degrees, or hours or degrees with minutes and seconds', () => {
    expect(angleOf('83,82', 'h')).toBe(83.82)
    expect(angleOf('05h 35m 17.3s', 'h')).toBeCloseTo(83.82208, 5)
    expect(angleOf('12H', 'h')).toBe(180)
    expect(angleOf('−5° 23′ 28″', 'd')).toBeCloseTo(-5.39111, 5)
    expect(angleOf("-5° 23' 28''", 'd')).toBeCloseTo(-5.39111, 5)
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
