import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { north } from '../../seed-demo/north.ts'
import { seedEvening } from '../../seed-demo/seed.ts'
import type { Desk } from '../../server/desk/desk.ts'
import { readWordTables } from '../../server/web/language.ts'
import { freshFolder, openDesk, removeFolder, SLOW_MS } from '../support/desk-folder.ts'
import { THE_HOST } from '../support/join-data.ts'
import { asHost, HOST_COOKIE, type TestApp, testApp } from '../support/web.ts'

const folder = freshFolder()
let desk: Desk
let service: TestApp
let url = ''
let stationId = ''
beforeAll(async () => {
  desk = await openDesk(folder)
  const night = seedEvening(desk, north)
  stationId = night.stations[0]?.id ?? ''
  url = `/api/nights/${night.id}/marks`
  const sessions = { ...desk.sessions, who: () => THE_HOST }
  service = await testApp({ desk: { ...desk, sessions }, words: readWordTables() })
}, SLOW_MS)
afterAll(async () => {
  await service.app.close()
  await desk.close()
  removeFolder(folder)
})

const mark = (key: string, targetKey = 'saturn', more: object = {}) => ({
  key,
  kind: 'shown',
  stationId,
  payload: { targetKey },
  secondsAgo: 3,
  ...more,
})
const post = (body: object) =>
  service.app.inject(asHost({ method: 'POST', url, payload: body, headers: { cookie: HOST_COOKIE } }))
const keptKeys = async (): Promise<string[]> =>
  (await service.app.inject(asHost({ url }))).json().marks.map(({ key }: { key: string }) => key)

describe('acts sent together', () => {
  it('are told of one by one: the good ones are kept, the others refused by their key and with a sentence', async () => {
    const answer = await post({ marks: [mark('good-0001'), mark('bad-00001', 'nothing-such'), mark('good-0002')] })
    expect(answer.statusCode).toBe(200)
    const { kept, refused, version, zone } = answer.json()
    expect(kept.map(({ key }: { key: string }) => key)).toEqual(['good-0001', 'good-0002'])
    expect(kept[0]).toEqual({
      ...mark('good-0001'),
      secondsAgo: undefined,
      seq: expect.any(Number),
      nightId: expect.any(String),
      by: 'host',
      receivedAt: '2026-12-17T17:20:00.000Z',
      happenedAt: '2026-12-17T17:19:57.000Z',
    })
    const message = 'This is not on the list of things to show.'
    const problems = [{ field: 'payload.targetKey', code: 'problem.object-unknown', message }]
    expect(refused).toEqual([{ key: 'bad-00001', problems }])
    expect([version, zone]).toEqual([expect.stringMatching(/\.2$/), 'Europe/Zurich'])
    expect(await keptKeys()).toEqual(['good-0001', 'good-0002'])
  })

  it.each([
    ['of an unknown kind', { kind: 'sung' }, 'kind'],
    ['older than a day', { secondsAgo: 90_000 }, 'secondsAgo'],
    ['with a field nobody asked for', { colour: 'red' }, 'colour'],
    ['without a station', { stationId: null }, 'stationId'],
  ])('do not suffer from one %s', async (_what, wrong, field) => {
    const [bad, good] = [`bad-${field}-1`, `good-${field}-1`]
    const answer = await post({ marks: [mark(bad, 'saturn', wrong), mark(good)] })
    expect(answer.statusCode).toBe(200)
    expect(answer.json()).toMatchObject({ kept: [{ key: good }], refused: [{ key: bad, problems: [{ field }] }] })
    expect(await keptKeys()).toContain(good)
  })

  it('are answered alike when they come again, and kept once', async () => {
    const body = { marks: [mark('again-0001'), mark('again-bad-1', 'nothing-such')] }
    const [first, second] = [await post(body), await post(body)]
    expect(second.json()).toEqual(first.json())
    expect((await keptKeys()).filter((key) => key === 'again-0001')).toHaveLength(1)
  })

  it('are refused altogether only when none can be kept, with the place of each before its field', async () => {
    const before = await keptKeys()
    const answer = await post({
      marks: [mark('lone-0001', 'nothing-such'), mark('lone-0002', 'saturn', { kind: 'sung' })],
    })
    expect(answer.statusCode).toBe(422)
    const fields = answer.json().error.problems.map(({ field }: { field: string }) => field)
    expect(fields).toEqual(['marks.0.payload.targetKey', 'marks.1.kind'])
    expect(await keptKeys()).toEqual(before)
  })

  it('must be a list of 1 to 100, and nothing else', async () => {
    for (const body of [{ marks: [] }, { marks: 'all' }, {}, { marks: [mark('more-0001')], more: 1 }]) {
      expect((await post(body)).statusCode).toBe(422)
    }
    const many = (await post({ marks: Array.from({ length: 101 }, (_, i) => mark(`many-${1000 + i}`)) })).json()
    expect(many.error.problems).toMatchObject([{ field: 'marks', code: 'problem.too-many' }])
    expect(await keptKeys()).not.toContain('more-0001')
  })

  it('are described with both answers', async () => {
    const { paths } = (await service.app.inject(asHost({ url: '/api/openapi.json' }))).json()
    const { requestBody, responses } = paths['/api/nights/{id}/marks'].post
    expect(Object.keys(requestBody.content['application/json'].schema.properties.marks.items.properties)).toContain(
      'key',
    )
    const kept = responses['200'].content['application/json'].schema.properties
    expect(Object.keys(kept)).toEqual(['kept', 'refused', 'version', 'zone'])
    expect(Object.keys(kept.refused.items.properties)).toEqual(['key', 'problems'])
    expect(responses['422'].content['application/json'].schema.properties.error).toBeDefined()
  })
})
