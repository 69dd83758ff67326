import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { AFTERNOON, SLOW_MS, standingClock } from '../support/desk-folder.ts'
import { hostedNight } from '../support/hosted-night.ts'
import { formsTo } from '../support/html-forms.ts'

const clock = standingClock(AFTERNOON)
const { desk, night, post, page, guest, close } = await hostedNight(clock)
const path = `/nights/${night.id}`
const url = `${path}/again`
beforeAll(() => desk.tours.build(night.id), SLOW_MS)
afterAll(close)

const json = async () => JSON.parse(await guest(`/api${path}/again`))
const marks = () => desk.marks.since(night.id, 0).map(({ kind, payload }) => [kind, payload])
const formTo = (html: string, action: string): Readonly<Record<string, string>> =>
  formsTo(html, action)[0]?.fields ?? {}
const tell = async (fields: Readonly<Record<string, string>>) =>
  post(url, { ...formTo(await page(url), url), ...fields })
const WEST = { 'shut.w': 'true', 'shut.nw': 'true', 'shut.sw': 'true' }

describe('a change of plan on the demo night', { timeout: SLOW_MS }, () => {
  it('before anything is shown is gone by at once', async () => {
    expect(await page(url)).toContain('so the row goes by the new programme at once')
    expect((await tell({ 'out.none': 'true', closes: '20.45 Uhr' })).statusCode).toBe(303)
    expect(desk.nights.find(night.id).closes).toBe('20:45')
    expect(marks()).toEqual([])
    expect(await json()).toMatchObject({ version: 2, waitingVersion: null, changes: null })
    expect((await tell({ closes: '21:00' })).statusCode).toBe(303)
    expect(await page(url)).toContain('No new programme waits. The row goes by version 3.')
  })

  it('says nothing of hours that cannot be, and keeps nothing of the rest', async () => {
    clock.moveTo('2026-12-17T17:20:10Z')
    const before = [marks(), desk.tours.versions(night.id).length]
    const answer = await tell({ ...WEST, opens: '20:55' })
    expect(answer.statusCode).toBe(422)
    expect(answer.body).toContain('The public hours must last 15 minutes or longer')
    expect(answer.body).toMatch(/name="opens"[^>]*value="20:55"/)
    expect(answer.body).toMatch(/name="shut\.w" type="checkbox" value="true" checked/)
    const odd = await tell({ ...WEST, opens: '12:60' })
    expect(odd.body).toMatch(/id="field-opens-problem">Write a time of the clock such as 17:30\./)
    expect(odd.body).toMatch(/name="opens"[^>]*value="12:60"/)
    expect([marks(), desk.tours.versions(night.id).length]).toEqual(before)
    expect(desk.nights.find(night.id).opens).toBe('18:00')
  })

  it('makes a programme that waits, shown beside the old one until the host goes by it', async () => {
    const sent = { ...formTo(await page(url), url), ...WEST, minutes: 'open' }
    const answer = await post(url, sent)
    expect([answer.statusCode, answer.headers.location]).toEqual([303, `${path}/again#new`])
    expect(marks()).toEqual([['clouds', { shut: ['sw', 'w', 'nw'], minutes: null }]])

    const told = await json()
    expect(told).toMatchObject({ atWall: '18:20', version: 3, waitingVersion: 4, shut: ['sw', 'w', 'nw'] })
    const spans = told.changes.flatMap((station: { spans: object[] }) => station.spans)
    const changed = spans.filter(({ isChanged }: { isChanged: boolean }) => isChanged)
    expect(told.changeCount).toBeGreaterThan(0)
    expect(changed.length).toBeGreaterThanOrEqual(told.changeCount)
    const html = await page(url)
    expect(html).toContain(told.changeCount === 1 ? '1 change.' : `${told.changeCount} changes.`)
    expect(html).toContain('Behind clouds until the host says that it is clear: south-west, west, and north-west.')
    expect(html).toMatch(/<span class="again-fate">new</)
    expect(html).toContain('In place of Ring Nebula, which cannot be shown here then.')
    expect(await page(path)).toContain(`href="${path}/again#new"`)
    expect(await guest(url)).not.toContain('<form')

    await post(url, sent)
    expect(marks()).toHaveLength(1)
    const accepted = await post(`${path}/programme/accept`, formTo(await page(url), `${path}/programme/accept`))
    expect(accepted.statusCode).toBe(303)
    expect(await json()).toMatchObject({ version: 5, waitingVersion: null, changes: null })
    expect(await page(url)).toContain(
      'Version 5, made at 18:20</a> <span>Asked for again.</span> <b>The row goes by it.</b>',
    )
  })

  it('is dropped when the host keeps the old one, and only then', async () => {
    clock.moveTo('2026-12-17T17:40:10Z')
    const [, second] = night.stations
    await tell({ [`out.${second?.id}`]: 'true', ...WEST, minutes: 'as-told', adults: '30', children: '12' })
    expect(marks().slice(-2)).toEqual([
      ['station', { is: 'out' }],
      ['counted', { adults: 30, children: 12 }],
    ])
    const html = await page(url)
    expect(html).toContain(`Out of the row: ${second?.name}.`)
    expect(html).toContain('42 people were counted on the field.')
    const { waitingVersion } = await json()
    expect(waitingVersion).toBe(6)
    const drop = formTo(html, `${path}/again/drop`)
    for (let sent = 0; sent < 2; sent++) {
      const dropped = await post(`${path}/again/drop`, drop)
      expect([dropped.statusCode, dropped.headers.location]).toEqual([303, url])
    }
    expect(desk.marks.since(night.id, 0).filter(({ kind }) => kind === 'dropped')).toHaveLength(1)
    expect(await json()).toMatchObject({ version: 5, waitingVersion: null })
    expect(await page(url)).toContain('No new programme waits. The row goes by version 5.')
  })

  it('says what was typed twice when a form comes back with something else in it', async () => {
    const sent = { ...formTo(await page(url), url), 'shut.w': '', 'shut.sw': '' }
    await post(url, { ...sent, minutes: '30' })
    const before = marks()
    const answer = await post(url, { ...sent, minutes: '60', adults: '3' })
    expect(answer.statusCode).toBe(422)
    expect(answer.body).toContain('This form was sent before, with something else in it.')
    expect(answer.body).toMatch(/name="adults"[^>]*value="3"/)
    expect(marks()).toEqual(before)
    const again = await post(url, { ...formTo(answer.body, url), minutes: '60' })
    expect(again.statusCode).toBe(303)
    expect(marks().slice(before.length)).toEqual([
      ['clouds', { shut: ['nw'], minutes: 60 }],
      ['counted', { adults: -27, children: 0 }],
    ])
  })

  it('starts late when the host says so while the row stands ready', async () => {
    clock.moveTo('2026-12-17T17:45:10Z')
    const answer = await tell({ opens: '18:30', closes: '21:30' })
    expect(answer.statusCode).toBe(303)
    const { opens, closes, visitors } = desk.nights.find(night.id)
    expect([opens, closes, visitors[0]?.startsAt]).toEqual(['18:30', '21:30', '18:30'])
    expect(desk.nights.find(night.id).stations.map(({ id }) => id)).toEqual(night.stations.map(({ id }) => id))
    const waiting = desk.again.state(night.id).waiting
    expect(Math.max(...(waiting?.stops ?? []).map(({ endsAt }) => endsAt.getTime()))).toBe(
      Date.parse('2026-12-17T20:30:00Z'),
    )
  })

  it('says why nothing can be made when all is shut, and keeps the row as it is', async () => {
    clock.moveTo('2026-12-17T17:50:00Z')
    const parts = ['n', 'ne', 'e', 'se', 's', 'sw', 'w', 'nw', 'overhead'].map((part) => [`shut.${part}`, 'true'])
    const answer = await tell({ ...Object.fromEntries(parts), minutes: 'open' })
    expect(answer.statusCode).toBe(409)
    expect(answer.body).toContain('No new programme was made, and the row stays with the one it has.')
    expect(answer.body).toContain('Behind clouds until the host says that it is clear: north,')
    expect((await json()).version).toBe(5)
  })
})
