import request from 'supertest'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { buildApp } from '../../server/app.ts'
import type { Desk } from '../../server/desk/desk.ts'
import { readWordTables } from '../../server/web/language.ts'
import { freshFolder, openDesk, removeFolder, SLOW_MS, standingClock } from '../support/desk-folder.ts'
import { NIGHT_DRAFT, SITE_DRAFT, TELESCOPE_DRAFT } from '../support/field-data.ts'
import { WIDE } from '../support/web.ts'

const PIN = '271828'
const clock = standingClock('2026-11-14T16:00:00Z')
const folder = freshFolder()

let desk: Desk
let url = ''
let stop = async (): Promise<unknown> => undefined

/** Starts the service on the folder, on a port of its own. */
async function start(): Promise<void> {
  desk = await openDesk(folder, { pin: PIN, clock })
  const hosts = () => new Set([new URL(url).host])
  const app = await buildApp({ desk, clock, words: readWordTables(), allowedHosts: hosts, limits: WIDE })
  url = await app.listen({ port: 0, host: '127.0.0.1' })
  stop = async () => {
    await app.close()
    await desk.close()
  }
}

beforeAll(start, SLOW_MS)
afterAll(async () => {
  await stop()
  removeFolder(folder)
})

async function signedIn() {
  const agent = request.agent(url)
  const session = await agent.post('/api/session').set('Origin', url).send({ pin: PIN })
  expect(session.status).toBe(201)
  const post = (path: string, body: object) => agent.post(path).set('Origin', url).send(body)
  return { post, cookie: String(session.headers['set-cookie']).split(';')[0] ?? '' }
}

const get = async (path: string) => (await request(url).get(path)).body

describe('an evening through the API, on the real desk', () => {
  it('goes from a PIN to a programme, a check and marks, and is all there after a restart', {
    timeout: SLOW_MS,
  }, async () => {
    const { post, cookie } = await signedIn()
    const site = (await post('/api/sites', SITE_DRAFT)).body
    const telescope = (await post('/api/telescopes', TELESCOPE_DRAFT)).body
    const stations = NIGHT_DRAFT.stations.map((station) => ({ ...station, telescopeId: telescope.id }))
    const night = await post('/api/nights', { ...NIGHT_DRAFT, siteId: site.id, stations })
    expect(night.body).toMatchObject({ zone: 'Europe/Berlin', opensAt: '2026-11-20T17:30:00.000Z' })
    const path = `/api/nights/${night.body.id}`

    const tour = await post(`${path}/tour`, { seed: 7, steps: 200 })
    expect(tour.status).toBe(201)
    expect(tour.body).toMatchObject({ version: 1, seed: 7, zone: 'Europe/Berlin' })
    expect(tour.body.stops.length).toBeGreaterThan(0)
    for (const stop of tour.body.stops) {
      expect(stop.targetName).not.toBe('')
      expect(stop.startsAtWall).toMatch(/^(18|19|20|21):\d\d$/)
      for (const { code, message } of stop.reasons) expect(message, code).toEqual(expect.any(String))
    }

    const check = await get(`${path}/check?at=2026-11-20T18:30:00Z`)
    expect(check).toMatchObject({ at: '2026-11-20T18:30:00.000Z', atWall: '19:30' })
    expect(check.lines.length).toBeGreaterThan(0)

    const { stationId, targetKey } = tour.body.stops[0]
    const mark = { key: 'phone-0001', kind: 'shown', stationId, payload: { targetKey }, secondsAgo: 3 }
    const marks = await post(`${path}/marks`, { marks: [mark] })
    expect(marks.status).toBe(200)
    expect(marks.body.refused).toEqual([])
    expect((await post(`${path}/marks`, { marks: [mark] })).body).toEqual(marks.body)
    const twice = (await post(`${path}/marks`, { marks: [mark, mark] })).body
    expect(twice.kept).toEqual([...marks.body.kept, ...marks.body.kept])

    await stop()
    await start()
    expect(await get(`${path}/tour`)).toEqual({ ...tour.body })
    const kept = await request(url).get(`${path}/marks`).set('Cookie', cookie)
    expect(kept.body.marks).toEqual(marks.body.kept)
    expect(await get(`${path}/changes`)).toMatchObject({ isSnapshot: true, marks: [] })
    expect((await get('/api/health')).sqlite).toMatchObject({ journalMode: 'wal', synchronous: 2 })
  })

  it('says the same sky to the API as to the programme: nothing below the horizon is called well seen', async () => {
    const question = {
      objectKey: 'm13',
      at: '2026-11-20T02:00:00Z',
      place: { latitudeDeg: 48.2, longitudeDeg: 11.6, heightM: 520 },
      tube: { apertureMm: 203, focalLengthMm: 1200 },
      eyepiece: { focalLengthMm: 25, apparentFieldDeg: 52 },
    }
    const where = 'at=2026-11-20T02:00Z&latitudeDeg=48.2&longitudeDeg=11.6&heightM=520&keys=m13'
    const [sky] = (await get(`/api/sky/places?${where}`)).places
    const sight = await request(url).post('/api/sight').set('Origin', url).send(question)
    expect(sky.apparentAltitudeDeg).toBeLessThan(5)
    expect(sight.status).toBe(200)
    expect(sight.body.chance).toBeLessThan(0.5)
    for (const { code, message } of sight.body.reasons) expect(message, code).toEqual(expect.any(String))
    expect(sight.body.sentence).toEqual(expect.any(String))
  })

  it('opens no host page to a cookie of before the PIN changed', { timeout: SLOW_MS }, async () => {
    const { cookie } = await signedIn()
    const open = () => request(url).get('/nights/new').set('Cookie', cookie).redirects(0)
    expect((await open()).status).toBe(200)
    await stop()
    desk = await openDesk(folder, { pin: '161803', clock })
    await desk.close()
    await start()
    const turned = await open()
    expect([turned.status, turned.headers.location]).toEqual([303, '/sign-in?back=%2Fnights%2Fnew'])
  })
})
