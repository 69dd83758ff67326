import { gunzipSync } from 'node:zlib'
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { draftOf } from '../../server/tours/night-draft.ts'
import { readWordTables } from '../../server/web/language.ts'
import { pageWriter } from '../../server/web/views.ts'
import { ASSETS } from '../support/assets.ts'
import { AFTERNOON, SLOW_MS, standingClock } from '../support/desk-folder.ts'
import { hostedNight, realApp } from '../support/hosted-night.ts'
import { asHost, asVisitor } from '../support/web.ts'

const MINUTE_MS = 60_000
const clock = standingClock(AFTERNOON)
const made: string[] = []
let isWorkerLate = false
const en = readWordTables()
const words = { ...en, de: en.en ?? {} }
const write = pageWriter(await ASSETS)
const { desk, app, night, signIn, join, guest, close } = await hostedNight(
  clock,
  (real) => ({ ...real, beside: (...asked) => (isWorkerLate ? new Promise(() => {}) : real.beside(...asked)) }),
  {
    words,
    writePage(server, name, model) {
      made.push(name)
      return write(server, name, model)
    },
  },
)
/** The same desk behind an app for which something has always changed: it makes every page when it is asked for. */
const keepingNothing = await realApp({ ...desk, changes: () => performance.now() }, clock, { words })
const station = night.stations[0]?.id ?? ''
const [field, objects] = [`/field/${night.id}`, `/nights/${night.id}/objects`]
const field4 = [`/tonight/${night.id}`, field, `${field}/line`, `${field}/${station}`]
const paths: readonly string[] = [...field4, '/objects/saturn', objects, `${objects}/saturn`]

beforeAll(() => desk.tours.build(night.id, { steps: 2_000 }), SLOW_MS)
afterAll(async () => {
  await keepingNothing.close()
  await close()
})
beforeEach(() => made.splice(0))

const ask = (url: string, headers: Record<string, string> = {}) => app.inject(asVisitor({ url, headers }))
const all = (): Promise<string[]> => Promise.all(paths.map(guest))
const anew = async (url: string): Promise<string> => (await keepingNothing.inject(asVisitor({ url }))).body
const later = () => clock.moveTo(new Date(clock.now().getTime() + MINUTE_MS).toISOString())

/** All pages made anew, once the worker has told everything that they need. */
async function workedOut(): Promise<string[]> {
  const [one, two] = [await Promise.all(paths.map(anew)), await Promise.all(paths.map(anew))]
  return one.every((html, i) => html === two[i]) ? two : workedOut()
}
const act = (kind: string, payload: object) =>
  desk.marks.record(
    night.id,
    [{ key: `kept-pages-${kind}`, kind, stationId: station, payload, secondsAgo: 0 }],
    'Ada',
    'helper',
  )

describe('a page that is kept', () => {
  it('is made once for all who ask, also for those who ask while it is being made', async () => {
    await workedOut()
    made.splice(0)
    const first = await all()
    await all()
    expect(made.toSorted()).toEqual(
      ['field', 'field-row', 'line-page', 'night-objects', 'object', 'object-tonight', 'tonight'].toSorted(),
    )
    expect(await all()).toEqual(first)
    desk.nights.change(night.id, { ...draftOf(night), title: 'Another title' })
    made.splice(0)
    const crowd = await Promise.all(Array.from({ length: 100 }, () => guest(`/tonight/${night.id}`)))
    expect([new Set(crowd).size, made]).toEqual([1, ['tonight']])
  })

  it('comes back in no bytes to a browser that holds it, and whole when it is another', async () => {
    const [url] = paths as [string]
    const { headers } = await ask(url)
    expect(headers).toMatchObject({
      'cache-control': 'private, no-cache',
      etag: expect.stringMatching(/^W\/"[\w-]{22}"$/),
    })
    const again = await ask(url, { 'if-none-match': `"other", ${headers.etag}` })
    expect([again.statusCode, again.body, again.headers.etag]).toEqual([304, '', headers.etag])
    // Made anew, since something was written, and still the same.
    desk.nights.add({ ...draftOf(night), title: 'Another night' })
    made.splice(0)
    expect((await ask(url, { 'if-none-match': String(headers.etag) })).statusCode).toBe(304)
    expect(made).toEqual(['tonight'])
    later()
    expect((await ask(url, { 'if-none-match': String(headers.etag) })).statusCode).toBe(200)
  })

  it.each<[string, RegExp, () => unknown]>([
    ['a new programme', /^\/(tonight|field)/, () => desk.tours.build(night.id, { seed: 7, steps: 2_000 })],
    ['a wish', /^$/, () => desk.wishes.add(night.id, { kind: 'bar', targetKey: 'm45' })],
    ['a change of words', /^\/objects\/saturn/, () => desk.words.put('saturn', 'en', { see: 'A bead with a ring.' })],
    ['another title', /^\/tonight/, () => desk.nights.change(night.id, { ...draftOf(night), title: 'New' })],
    ['the next minute', /^\/tonight/, () => later()],
    ['the opening', /^\/(tonight|field)/, () => clock.moveTo('2026-12-17T17:20:00Z')],
    ['a mark', /^\/(tonight|field)/, () => act('showing', { targetKey: 'm42', aim: 'whole' })],
  ])('is never older than %s', async (_name, changes, change) => {
    const before = await all()
    await change()
    const fresh = await workedOut()
    made.splice(0)
    const now = await all()
    expect(now).toEqual(fresh)
    for (const [i, path] of paths.entries())
      if (changes.test(path)) expect([path, now[i] === before[i]]).toEqual([path, false])
    expect(made).toHaveLength(paths.length)
  })

  it('comes packed to a browser that unpacks it, the first time as ever after', async () => {
    const url = `/field/${night.id}?lang=packed`
    const plain = await guest(`/field/${night.id}`)
    for (let time = 0; time < 2; time++) {
      const answer = await ask(url, { 'accept-encoding': 'gzip, deflate' })
      expect(answer.headers).toMatchObject({ 'content-encoding': 'gzip', vary: 'accept-encoding' })
      expect(gunzipSync(answer.rawPayload).toString()).toBe(plain)
      expect(Number(answer.headers['content-length'])).toBe(answer.rawPayload.length)
    }
    for (const accepted of ['', 'br', 'gzip;q=0']) {
      const answer = await ask(url, { 'accept-encoding': accepted })
      expect([answer.headers['content-encoding'], answer.body]).toEqual([undefined, plain])
    }
  })

  it('is each reader’s own, by the address and by what was chosen before', async () => {
    const url = `/tonight/${night.id}`
    const plain = await guest(url)
    expect(await guest(`${url}?look=lamp`)).not.toBe(plain)
    expect((await ask(url, { cookie: 'look=lamp' })).body).not.toBe(plain)
    expect((await ask(url, { cookie: 'lang=de' })).body).toContain('<html lang="de"')
    const set = await Promise.all([1, 2].map(() => ask(`${url}?look=lamp`)))
    expect(set.map(({ headers }) => [String(headers['set-cookie']).slice(0, 9), headers['cache-control']])).toEqual(
      Array(2).fill(['look=lamp', 'no-store']),
    )
    expect(await guest(url)).toBe(plain)
  })
})

describe('a page of somebody who is signed in', () => {
  it('never reaches anybody else, nor the disk of a browser', async () => {
    const visitors = await guest('/objects/saturn')
    const cookie = await signIn()
    const asked = () => app.inject(asHost({ url: '/objects/saturn', headers: { cookie } }))
    const hosts = await asked()
    expect([hosts.headers['cache-control'], hosts.headers.etag]).toEqual(['no-store', undefined])
    expect(hosts.body).toContain('Sign out')
    made.splice(0)
    expect([(await asked()).body, made]).toEqual([hosts.body, []])
    expect(await guest('/objects/saturn')).toBe(visitors)
    expect(visitors).not.toContain('Sign out')
    await app.inject(asHost({ method: 'DELETE', url: '/api/session', headers: { cookie } }))
    expect((await asked()).body).not.toContain('Sign out')
  })

  it('is made for each phone that acts, whose forms carry keys of their own, and is a visitor’s again once it may not', async () => {
    const url = `/field/${night.id}/${station}`
    const visitors = await guest(url)
    const [ada, ben] = [await join('Ada'), await join('Ben')]
    const pages = [ada, ben, ada].map(async (cookie) => (await ask(url, { cookie })).body)
    const keys = (await Promise.all(pages)).map((html) =>
      [...html.matchAll(/name="key" value="([\w-]{20})"/g)].map(([, key]) => key),
    )
    expect(keys.every(({ length }) => length > 3)).toBe(true)
    expect(new Set(keys.flat()).size).toBe(keys.flat().length)
    expect(await guest(url)).toBe(await anew(url))
    for (const { id, name } of desk.joins.phones(night.id)) if (name === 'Ada') desk.joins.revoke(night.id, id)
    const left = await ask(url, { cookie: ada })
    expect([left.body.includes('name="key"'), left.headers['cache-control']]).toEqual([false, 'private, no-cache'])
    expect(visitors).not.toContain('name="key"')
  })
})

it('shares a page that is not finished with those who wait for it, and makes it anew for the next', async () => {
  isWorkerLate = true
  const url = `/tonight/${night.id}?second=xx`
  await Promise.all([guest(url), guest(url), guest(url)])
  expect(made).toEqual(['tonight'])
  isWorkerLate = false
  await guest(url)
  await guest(url)
  expect(made).toEqual(['tonight', 'tonight'])
})
