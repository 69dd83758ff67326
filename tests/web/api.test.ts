import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { RouteRole } from '../../server/web/roles.ts'
import { NIGHT_DRAFT, SITE_DRAFT, TELESCOPE_DRAFT } from '../support/field-data.ts'
import { asHost, asVisitor, type TestApp, testApp } from '../support/web.ts'

const routes: RouteRole[] = []
let service: TestApp
beforeAll(async () => {
  service = await testApp({ routeSeen: (route) => routes.push(route) })
})
afterAll(() => service.app.close())

const read = async (url: string) => (await service.app.inject(asVisitor({ url }))).json()
const post = (url: string, payload: object) => service.app.inject(asHost({ method: 'POST', url, payload }))

describe('the API', () => {
  it('describes every one of its routes, with what they take', async () => {
    const document = await read('/api/openapi.json')
    expect(document.openapi).toMatch(/^3\.1/)
    for (const { method, url } of routes.filter((route) => route.url.startsWith('/api/') && route.method !== 'HEAD')) {
      if (url === '/api/openapi.json') continue
      const path = document.paths[url.replace(/:(\w+)/g, '{$1}')]
      expect(path?.[method.toLowerCase()]?.summary, `${method} ${url}`).toBeTruthy()
    }
    const night = document.paths['/api/nights'].post.requestBody.content['application/json'].schema
    expect(Object.keys(night.properties)).toEqual(Object.keys(NIGHT_DRAFT))
  })

  it('keeps a site, a telescope and a night, and says where they are', async () => {
    for (const [url, draft] of [
      ['/api/sites', SITE_DRAFT],
      ['/api/telescopes', TELESCOPE_DRAFT],
      ['/api/nights', NIGHT_DRAFT],
    ] as const) {
      const answer = await post(url, draft)
      expect(answer.statusCode).toBe(201)
      const { id } = answer.json<{ id: string }>()
      expect(answer.headers.location).toBe(`${url}/${id}`)
      expect(await read(`${url}/${id}`)).toMatchObject({ id })
    }
  })

  it('gives a night its hours as instants and its zone', async () => {
    expect(await read('/api/nights/night-1')).toMatchObject({
      opensAt: '2026-11-20T17:30:00.000Z',
      closesAt: '2026-11-20T20:30:00.000Z',
      zone: 'Europe/Berlin',
    })
  })

  it('leads from any designation to the one key', async () => {
    const answer = await service.app.inject(asVisitor({ url: '/api/objects/ngc6205' }))
    expect([answer.statusCode, answer.headers.location]).toEqual([308, '/api/objects/m13'])
    expect(await read('/api/objects/m13')).toMatchObject({ object: { key: 'm13' }, isOutreach: true })
  })

  it('tells a programme with names, clock times and the gap to its bound', async () => {
    const tour = await read('/api/nights/night-1/tour')
    expect(tour).toMatchObject({ value: 90, bound: 100, gap: 0.1, seconds: 1.5, zone: 'Europe/Berlin' })
    expect(tour.stops[0]).toMatchObject({
      targetName: 'Great cluster in Hercules',
      stationName: 'By the oak',
      startsAt: '2026-11-20T17:30:00.000Z',
      startsAtWall: '18:30',
      leaveBy: { at: '2026-11-20T18:40:00.000Z', atWall: '19:40', cause: { code: 'skyline', name: 'oak' } },
    })
  })

  it('says of a programme whether it holds, and tells any version of it that is asked for', async () => {
    const standing = { isCurrent: true, isStale: false, waitingVersion: null }
    expect(await read('/api/nights/night-1/tour')).toMatchObject(standing)
    expect(await read('/api/nights/night-1/tour?version=1')).toMatchObject({ version: 1, ...standing })
    expect(await read('/api/nights/night-1/tour?version=7')).toMatchObject({ error: { code: 'fault.no-tour' } })
    expect(await read('/api/nights/night-1/tour')).not.toHaveProperty('tookOverAtSeq')
  })

  it('builds the next version without a body', async () => {
    const answer = await service.app.inject(asHost({ method: 'POST', url: '/api/nights/night-1/tour' }))
    expect(answer.statusCode).toBe(201)
    expect(answer.json()).toMatchObject({ version: 2 })
  })

  it('answers whether a newcomer sees it, to anyone, and changes nothing', async () => {
    const before = JSON.stringify(service.kept)
    const question = {
      objectKey: 'm13',
      at: '2026-11-20T18:00:00Z',
      place: { latitudeDeg: 48, longitudeDeg: 11, heightM: 500 },
      tube: { apertureMm: 203, focalLengthMm: 1200 },
      eyepiece: { focalLengthMm: 25, apparentFieldDeg: 52 },
      conditions: { zenithMag: 20 },
    }
    const answer = await service.app.inject(asVisitor({ method: 'POST', url: '/api/sight', payload: question }))
    expect(answer.statusCode).toBe(200)
    expect(answer.json()).toMatchObject({
      chance: 0.8,
      word: 'most',
      sentence: 'sight.sentence',
      caution: null,
      view: 0.6,
      powerX: 48,
      sky: { magPerArcsec2: 19.1 },
      reasons: [{ code: 'sight.moonlight', magnitudes: -0.4, message: 'sight.moonlight' }],
      conditions: { zenithMag: 20, noviceFactor: 4 },
    })
    expect(JSON.stringify(service.kept)).toBe(before)
  })

  it('keeps a mark once, however often it comes', async () => {
    const mark = {
      key: 'phone-0001',
      kind: 'shown',
      stationId: 'station-1',
      payload: { targetKey: 'm13' },
      secondsAgo: 3,
    }
    const first = await post('/api/nights/night-1/marks', { marks: [mark] })
    const second = await post('/api/nights/night-1/marks', { marks: [mark, mark] })
    expect(second.json()).toEqual(first.json())
    const since = async (seq: number) =>
      (await service.app.inject(asHost({ url: `/api/nights/night-1/marks?since=${seq}` }))).json()
    expect(await since(0)).toMatchObject({ marks: [{ key: 'phone-0001', by: 'host' }] })
    expect(await since(1)).toMatchObject({ marks: [], version: 'first.1' })
  })

  it('takes the place of the sky by address', async () => {
    const place = 'latitudeDeg=48.2&longitudeDeg=-11.6&heightM=520'
    const sky = await read(`/api/sky/places?at=2026-11-20T18:00Z&${place}&keys=m13,moon`)
    expect(sky).toMatchObject({ at: '2026-11-20T18:00:00.000Z', places: [{ key: 'm13' }, { key: 'moon' }] })
    const evening = await read(`/api/sky/evening?date=2026-11-20&${place}&zone=Europe/Berlin`)
    expect(evening).toMatchObject({ date: '2026-11-20', zone: 'Europe/Berlin', sunriseAt: null })
  })
})
