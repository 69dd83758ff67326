import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { NIGHT_DRAFT, SITE_DRAFT, TELESCOPE_DRAFT } from '../support/field-data.ts'
import { asHost, type TestApp, testApp } from '../support/web.ts'

let service: TestApp
beforeAll(async () => {
  service = await testApp()
})
afterAll(() => service.app.close())

const SIGHT = {
  objectKey: 'm13',
  at: '2026-11-20T18:00:00Z',
  place: { latitudeDeg: 48, longitudeDeg: 11, heightM: 500 },
  tube: { apertureMm: 203, focalLengthMm: 1200 },
  eyepiece: { focalLengthMm: 25, apparentFieldDeg: 52 },
}
const MARK = { key: 'phone-0001', kind: 'shown', stationId: 'station-1', payload: { targetKey: 'm13' }, secondsAgo: 3 }
const eyepiece = (focalLengthMm: number) => [{ name: 'x', focalLengthMm, apparentFieldDeg: 52, fieldStopMm: null }]

/** What is sent where, and the field and key of the first complaint. */
const WRONG: readonly [what: string, url: string, body: unknown, field: string, code: string][] = [
  ['a latitude beyond the pole', '/api/sites', { ...SITE_DRAFT, latitudeDeg: 91 }, 'latitudeDeg', 'problem.range'],
  ['a longitude of 181', '/api/sites', { ...SITE_DRAFT, longitudeDeg: 181 }, 'longitudeDeg', 'problem.range'],
  ['a latitude as text', '/api/sites', { ...SITE_DRAFT, latitudeDeg: '48' }, 'latitudeDeg', 'problem.type'],
  ['no latitude', '/api/sites', { ...SITE_DRAFT, latitudeDeg: undefined }, 'latitudeDeg', 'problem.required'],
  ['an unknown zone', '/api/sites', { ...SITE_DRAFT, zone: 'Middle/Earth' }, 'zone', 'problem.zone-unknown'],
  ['a field that nobody asked for', '/api/sites', { ...SITE_DRAFT, id: 'mine' }, 'id', 'problem.unknown-field'],
  [
    'a doubled azimuth',
    '/api/sites',
    { ...SITE_DRAFT, horizon: [...SITE_DRAFT.horizon, ...SITE_DRAFT.horizon] },
    'horizon.1.azimuthDeg',
    'problem.azimuth-twice',
  ],
  ['a list for a site', '/api/sites', [], '', 'problem.type-object'],
  [
    'an eyepiece of 0 mm',
    '/api/telescopes',
    { ...TELESCOPE_DRAFT, eyepieces: eyepiece(0) },
    'eyepieces.0.focalLengthMm',
    'problem.eyepiece-zero',
  ],
  [
    'an eyepiece of -5 mm',
    '/api/telescopes',
    { ...TELESCOPE_DRAFT, eyepieces: eyepiece(-5) },
    'eyepieces.0.focalLengthMm',
    'problem.eyepiece-range',
  ],
  ['a telescope without a tube', '/api/telescopes', { ...TELESCOPE_DRAFT, tubes: [] }, 'tubes', 'problem.no-tube'],
  ['a night in the past', '/api/nights', { ...NIGHT_DRAFT, date: '2026-11-01' }, 'date', 'problem.night-past'],
  ['30 February', '/api/nights', { ...NIGHT_DRAFT, date: '2027-02-30' }, 'date', 'problem.no-such-day'],
  [
    'hours that end before they start',
    '/api/nights',
    { ...NIGHT_DRAFT, closes: '17:00', visitors: [] },
    'closes',
    'problem.hours-order',
  ],
  ['25 o’clock', '/api/nights', { ...NIGHT_DRAFT, opens: '25:00' }, 'opens', 'problem.pattern'],
  ['a night without a row', '/api/nights', { ...NIGHT_DRAFT, stations: [] }, 'stations', 'problem.too-few'],
  ['a build with half a step', '/api/nights/night-1/tour', { steps: 0.5 }, 'steps', 'problem.range'],
  ['no marks at all', '/api/nights/night-1/marks', { marks: [] }, 'marks', 'problem.too-few'],
  [
    'a mark of an unknown kind',
    '/api/nights/night-1/marks',
    { marks: [{ ...MARK, kind: 'sung' }] },
    'marks.0.kind',
    'problem.choice',
  ],
  [
    'a mark with a short key',
    '/api/nights/night-1/marks',
    { marks: [{ ...MARK, key: 'x' }] },
    'marks.0.key',
    'problem.pattern',
  ],
  [
    'a tube of 0 mm',
    '/api/sight',
    { ...SIGHT, tube: { apertureMm: 0, focalLengthMm: 1200 } },
    'tube.apertureMm',
    'problem.range',
  ],
  ['a thirteenth month', '/api/sight', { ...SIGHT, at: '2026-13-20T18:00:00Z' }, 'at', 'problem.no-such-instant'],
  ['31 November', '/api/sight', { ...SIGHT, at: '2026-11-31T18:00:00Z' }, 'at', 'problem.no-such-instant'],
  ['a year before any catalogue', '/api/sight', { ...SIGHT, at: '0900-11-20T18:00:00Z' }, 'at', 'problem.range'],
  ['a time without a zone', '/api/sight', { ...SIGHT, at: '2026-11-20T18:00:00' }, 'at', 'problem.pattern'],
]

interface Told {
  readonly error: {
    readonly code: string
    readonly message: string
    readonly problems: readonly { field: string; code: string; message: string }[]
  }
}

const LEAK = /node_modules|\.ts\b|\bat \w+ \(|SELECT|stack|\/server\//

describe('wrong input', () => {
  it.each(WRONG)('refuses %s', async (_what, url, body, field, code) => {
    const before = JSON.stringify(service.kept)
    const answer = await service.app.inject(
      asHost({ method: 'POST', url, payload: JSON.stringify(body), headers: { 'content-type': 'application/json' } }),
    )
    const { error } = answer.json<Told>()
    expect(answer.statusCode).toBe(422)
    expect(error.code).toBe('fault.invalid')
    expect(error.problems.length).toBeGreaterThan(0)
    expect(error.problems).toContainEqual({ field, code, message: expect.any(String) })
    expect(answer.body).not.toMatch(LEAK)
    expect(JSON.stringify(service.kept)).toBe(before)
  })

  it.each([
    ['malformed JSON', '{"name": ', 'application/json', 400, 'fault.malformed'],
    ['an empty body that says it is JSON', '', 'application/json', 400, 'fault.malformed'],
    ['__proto__', '{"__proto__": {"isHost": true}}', 'application/json', 400, 'fault.malformed'],
    ['constructor.prototype', '{"constructor": {"prototype": {}}}', 'application/json', 400, 'fault.malformed'],
    ['2 MB', JSON.stringify({ name: 'x'.repeat(2_000_000) }), 'application/json', 413, 'fault.too-large'],
    ['plain text', 'name=x', 'text/plain', 415, 'fault.content-type'],
    ['a file', '--x--', 'multipart/form-data; boundary=x', 415, 'fault.content-type'],
    ['7,000 lists in each other', `${'['.repeat(7000)}${']'.repeat(7000)}`, 'application/json', 422, 'fault.invalid'],
  ])('refuses %s', async (_what, payload, type, status, code) => {
    const before = JSON.stringify(service.kept)
    const answer = await service.app.inject(
      asHost({ method: 'POST', url: '/api/sites', payload, headers: { 'content-type': type } }),
    )
    expect(answer.statusCode).toBe(status)
    expect(answer.json<Told>().error).toMatchObject({ code, message: code })
    expect(answer.body).not.toMatch(LEAK)
    expect(JSON.stringify(service.kept)).toBe(before)
    expect(Object.hasOwn(Object.prototype, 'isHost')).toBe(false)
  })

  it.each([
    ['/api/sky/places?at=2026-11-20T18:00Z&latitudeDeg=91&longitudeDeg=11&heightM=0&keys=m13', 'latitudeDeg'],
    ['/api/sky/places?at=2026-11-20T18:00Z&latitudeDeg=here&longitudeDeg=11&heightM=0&keys=m13', 'latitudeDeg'],
    [`/api/sky/places?at=2026-11-20T18:00Z&latitudeDeg=1&longitudeDeg=1&heightM=0&keys=${'a,'.repeat(51)}`, 'keys'],
    ['/api/sky/evening?date=2026-02-30&latitudeDeg=1&longitudeDeg=1&heightM=0&zone=UTC', 'date'],
    ['/api/sky/evening?date=2026-11-20&latitudeDeg=1&longitudeDeg=1&heightM=0&zone=Middle/Earth', 'zone'],
    ['/api/objects?kind=teapot', 'kind'],
    ['/api/objects?month=2026-13', 'month'],
    ['/api/objects?q=a&limit=0', 'limit'],
    ['/api/nights/night-1/check?at=tonight', 'at'],
    ['/api/nights/night-1/marks?since=-1', 'since'],
  ])('names the field of %s', async (url, field) => {
    const answer = await service.app.inject(asHost({ url }))
    expect(answer.statusCode).toBe(422)
    expect(answer.json<Told>().error.problems.map((problem) => problem.field)).toContain(field)
  })

  it.each([
    '/api/nights/none',
    '/api/nights/none/tour',
    '/api/nights/none/check',
    '/api/sites/none',
    '/api/objects/none',
    '/api/nowhere',
  ])('says 404 to %s', async (url) => {
    const answer = await service.app.inject(asHost({ url }))
    expect(answer.statusCode).toBe(404)
    expect(answer.json<Told>().error.code).toMatch(/^fault\.no-/)
  })

  it('takes 16 KiB at most, and 64 KiB for a whole site or night', async () => {
    const statusOf = async (url: string, bytes: number) => {
      const payload = JSON.stringify({ name: 'x'.repeat(bytes) })
      const headers = { 'content-type': 'application/json' }
      return (await service.app.inject(asHost({ method: 'POST', url, payload, headers }))).statusCode
    }
    expect([await statusOf('/api/sight', 15_000), await statusOf('/api/sight', 17_000)]).toEqual([422, 413])
    expect([await statusOf('/api/nights', 60_000), await statusOf('/api/nights', 66_000)]).toEqual([422, 413])
    expect(await statusOf('/sign-in', 17_000)).toBe(413)
  })
})
