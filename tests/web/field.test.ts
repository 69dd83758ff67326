import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { north } from '../../seed-demo/north.ts'
import { seedEvening } from '../../seed-demo/seed.ts'
import type { Desk } from '../../server/desk/desk.ts'
import type { Night } from '../../server/tours/night.ts'
import { AFTERNOON, freshFolder, openDesk, removeFolder, SLOW_MS, standingClock } from '../support/desk-folder.ts'
import { THE_HOST } from '../support/join-data.ts'
import { pagedApp } from '../support/paged-app.ts'
import { unescaped } from '../support/phone-service.ts'
import { asHost, asVisitor, HOST_COOKIE, type TestApp } from '../support/web.ts'

const EVENING = '2026-12-17T17:40:00Z'
const LARGEST_PAGE_BYTES = 25_000

const folder = freshFolder()
const clock = standingClock(AFTERNOON)
let desk: Desk
let service: TestApp
let night: Night
beforeAll(async () => {
  desk = await openDesk(folder, { clock })
  night = seedEvening(desk, north)
  await desk.tours.build(night.id, { steps: 2_000 })
  clock.moveTo(EVENING)
  const sessions = { ...desk.sessions, who: () => THE_HOST }
  service = await pagedApp({
    desk: { ...desk, sessions },
    clock,
  })
}, SLOW_MS)
afterAll(async () => {
  await service.app.close()
  await desk.close()
  removeFolder(folder)
})

let keys = 0
type Fields = Readonly<Record<string, string | readonly string[]>>
function post(fields: Fields) {
  const all = Object.entries({ key: `key-of-a-form-${++keys}`, ...fields })
  const pairs = all.flatMap(([name, value]) => [value].flat().map((each) => [name, String(each)]))
  return service.app.inject(
    asHost({
      method: 'POST',
      url: `/field/${night.id}/marks`,
      headers: { 'content-type': 'application/x-www-form-urlencoded', cookie: HOST_COOKIE },
      payload: new URLSearchParams(pairs.map(([name = '', value = '']): [string, string] => [name, value])).toString(),
    }),
  )
}
const kept = () => desk.marks.since(night.id, 0).at(-1)
const idOf = (place: number): string => night.stations[place]?.id ?? ''
const read = async (path: string, as = asHost): Promise<string> =>
  unescaped((await service.app.inject(as({ url: `/field/${night.id}${path}` }))).body)

describe('an act by form', () => {
  it.each<[string, Fields, object]>([
    ['ten people timed', { kind: 'timed', people: '10', seconds: '420' }, { people: 10, seconds: 420 }],
    ['people counted, the children left blank', { kind: 'counted', adults: '-2' }, { adults: -2, children: 0 }],
    ['clouds in two parts', { kind: 'clouds', shut: ['n', 'ne'], minutes: '30' }, { shut: ['n', 'ne'], minutes: 30 }],
    ['clouds in one part without an end', { kind: 'clouds', shut: 'w', minutes: '' }, { shut: ['w'], minutes: null }],
    ['no clouds any more', { kind: 'clouds' }, { shut: [], minutes: null }],
  ])('carries numbers and lists: %s', async (_what, fields, payload) => {
    const stationId = fields.kind === 'timed' ? idOf(0) : ''
    expect((await post({ ...fields, stationId })).statusCode).toBe(303)
    expect(kept()).toMatchObject({ kind: fields.kind, payload, stationId: stationId || null, by: 'host' })
  })

  it.each<[string, Fields, string]>([
    ['a number that is none', { kind: 'timed', people: 'ten', seconds: '420' }, 'whole number'],
    [
      'a reason that is none',
      { kind: 'skipped', targetKey: 'moon', why: 'boredom' },
      '<li>Choose one of the list.</li>',
    ],
    ['a station that is none', { kind: 'trouble', what: 'help', stationId: 'nobody' }, 'station'],
    ['a field that nobody asked for', { kind: 'trouble', what: 'help', colour: 'red' }, ''],
  ])('is refused with %s, and nothing is kept', async (_what, fields, said) => {
    const before = kept()
    const answer = await post({ stationId: idOf(0), ...fields })
    expect(answer.statusCode).toBe(422)
    expect(answer.body).toContain(said)
    expect(answer.body).toContain('data-look="lamp"')
    expect(kept()).toEqual(before)
  })

  it('comes back to where it was made, and never to another place', async () => {
    const act = { kind: 'trouble', what: 'help', stationId: idOf(0) }
    const backTo = async (more: Fields) => (await post({ ...act, ...more })).headers.location
    expect(await backTo({ back: `/field/${night.id}/line` })).toBe(`/field/${night.id}/line`)
    expect(await backTo({ back: '//evil.example' })).toBe('/')
    expect(await backTo({})).toBe(`/field/${night.id}/${idOf(0)}`)
    expect(await backTo({ kind: 'clouds', what: '', stationId: '' })).toBe(`/field/${night.id}`)
  })
})

describe('the pages of the field over the wire', () => {
  it('is light, and carries five things before any fold', async () => {
    const here = desk.marks.field(night.id).stations.find(({ showing, next }) => showing && next)?.stationId ?? ''
    await desk.goodNow(night.id, here, clock.now())
    const html = await read(`/${here}`)
    expect(Buffer.byteLength(html)).toBeLessThan(LARGEST_PAGE_BYTES)
    const atOnce = html.slice(html.indexOf('<section class="now">'), html.indexOf('<section class="folds">'))
    expect(atOnce).toMatch(/class="target">[^<]+<\/p>\s*<p class="until">until \d\d:\d\d/)
    expect(atOnce).toMatch(/<span>Next:<\/span> <b>\d\d:\d\d [^<]+<\/b>/)
    expect(atOnce).toMatch(/<button>Now showing next: [^<]+<\/button>/)
    expect(atOnce).toMatch(/<summary>Trouble/)
    expect(html.match(/<button>Show /g)).toHaveLength(6)
    expect(html).not.toMatch(/<details[^>]* open/)
    expect(html).toContain(`data-tour-version="1" data-version="${desk.marks.version(night.id)}"`)
    expect(html).toMatch(/<summary>Check of 18:30<\/summary>/)
  })

  it('finds things by a name typed, those that can be shown first, and keeps what was typed', async () => {
    await desk.goodNow(night.id, idOf(2), clock.now())
    const html = await read(`/${idOf(2)}?q=${encodeURIComponent('orion')}`)
    expect(html).toContain('<details id="else" open>')
    expect(html).toContain('value="orion"')
    expect(html).toMatch(/<b>Orion Nebula<\/b>|Show Orion Nebula/)
    expect(await read(`/${idOf(2)}?q=zzzz`)).toContain('Nothing on the outreach list answers to zzzz.')
    expect(await read(`/${idOf(2)}?q=${'x'.repeat(500)}`)).toContain(`value="${'x'.repeat(80)}"`)
  })

  it('tells a visitor the same and offers no act', async () => {
    const visitor = await pagedApp({
      desk: { ...desk, sessions: { ...desk.sessions, who: () => undefined } },
      clock,
    })
    const paths = ['', `/${idOf(2)}`, `/${idOf(2)}?q=moon`]
    const pages = await Promise.all(
      paths.map(async (path) => (await visitor.app.inject(asVisitor({ url: `/field/${night.id}${path}` }))).body),
    )
    await visitor.app.close()
    for (const html of pages) expect(html).not.toContain('data-act')
    expect(pages[0]).toContain(`href="/field/${night.id}/${idOf(2)}"`)
    expect(pages[0]).toContain('Adaeze')
    expect(pages[1]).toContain('You can read here')
  })

  it('answers what is not there with that', async () => {
    expect((await service.app.inject(asHost({ url: `/field/${night.id}/nobody` }))).statusCode).toBe(404)
    expect((await service.app.inject(asHost({ url: '/field/nowhere' }))).statusCode).toBe(404)
  })
})

describe('what a telescope could show now', () => {
  it('is asked of the worker once a minute for the same state of the row', async () => {
    const ask = (at: string, keys?: readonly string[]) => desk.goodNow(night.id, idOf(1), new Date(at), keys)
    const first = await ask('2026-12-17T17:45:00Z')
    expect(await ask('2026-12-17T17:45:59Z')).toBe(first)
    expect(await ask('2026-12-17T17:46:00Z')).not.toBe(first)
    expect(await ask('2026-12-17T17:45:00Z', ['m42'])).not.toBe(first)
  })

  it('hears of clouds, of what the neighbours show and of what the host has barred', async () => {
    const now = async (keys: readonly string[] = []) => desk.goodNow(night.id, idOf(1), clock.now(), keys)
    const [first] = (await now()).lines
    const key = first?.targetKey ?? ''
    await post({ kind: 'clouds', shut: ['n', 'ne', 'e', 'se', 's', 'sw', 'w', 'nw', 'overhead'] })
    expect(await now([key])).toMatchObject({ lines: [], asked: [{ but: { code: 'now.clouded' } }] })
    await post({ kind: 'clouds' })
    await desk.wishes.add(night.id, { kind: 'bar', targetKey: key })
    expect(await now([key])).toMatchObject({ asked: [{ but: { code: 'now.barred' } }] })
    expect((await now()).lines.map(({ targetKey }) => targetKey)).not.toContain(key)
  })

  it('is there before a programme is', async () => {
    const bare = seedEvening(desk, north)
    const { lines, on } = await desk.goodNow(bare.id, bare.stations[0]?.id ?? '', clock.now())
    expect([lines.length, on]).toEqual([6, null])
    await expect(desk.goodNow('none', 'none', clock.now())).rejects.toMatchObject({ key: 'fault.no-night' })
  })
})
