import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { SLOW_MS, standingClock } from '../support/desk-folder.ts'
import { hostedNight } from '../support/hosted-night.ts'
import { formsTo } from '../support/html-forms.ts'

const { desk, night, send, post, page, guest, close } = await hostedNight(standingClock('2026-12-17T16:20:00Z'))
const path = `/nights/${night.id}`
beforeAll(() => desk.tours.build(night.id), SLOW_MS)
afterAll(close)

const actsOf = (html: string): readonly Readonly<Record<string, string>>[] =>
  formsTo(html, '/wishes/stop').map(({ fields }) => fields)
const stationOf = (name: string): string => night.stations.find((station) => station.name === name)?.id ?? ''

describe('the host at the programme', { timeout: SLOW_MS }, () => {
  it('finds small forms at every stop, which nobody else is shown', async () => {
    const html = await page(`${path}/programme`)
    const stops = desk.tours.current(night.id)?.stops ?? []
    const acts = actsOf(html).map(({ act }) => act)
    for (const act of ['keep', 'not-here', 'longer', 'shorter', 'swap']) {
      expect(acts.filter((found) => found === act)).toHaveLength(stops.length)
    }
    expect(await guest(`${path}/programme`)).not.toContain('/wishes/stop')
    expect(await page(`${path}/programme?by=time`)).toContain('/wishes/stop')
  })

  it('keeps a stop where it is, is told so, and takes that back', async () => {
    const html = await page(`${path}/programme`)
    const keep = actsOf(html).find(({ act }) => act === 'keep')
    const answer = await post(`${path}/wishes/stop`, keep ?? {})
    expect([answer.statusCode, answer.headers.location]).toEqual([303, `${path}/wishes`])
    const list = await page(`${path}/wishes`)
    expect(list).toContain('Moon at Low refractor from 18:00 to 21:00')
    expect(await guest(`${path}/wishes`)).toContain('Moon at Low refractor from 18:00 to 21:00')
    expect(await guest(`${path}/wishes`)).not.toContain('Take back')
    expect(await page(`${path}/programme`)).toContain('changed after this programme was built')
    const [back = ''] = /\/nights\/[\w-]+\/wishes\/[\w-]+\/back/.exec(list) ?? []
    expect((await post(back, {})).statusCode).toBe(303)
    expect(await page(`${path}/wishes`)).toContain('the programme is free')
    expect(await page(`${path}/programme`)).not.toContain('changed after this programme was built')
  })

  it('swaps two stops by what the form offers, where the sky bears it', async () => {
    const html = await page(`${path}/programme`)
    const [{ stop = '' } = {}] = actsOf(html).filter(({ act }) => act === 'swap')
    const [form = ''] = /<form class="stop-acts-swap".*?<\/form>/s.exec(html) ?? []
    const others = [...form.matchAll(/<option value="([^"]+)">/g)].map(([, value = '']) => value)
    const swap = async (other: string) => post(`${path}/wishes/stop`, { act: 'swap', stop, other })
    expect((await swap(stop)).body).toContain('Choose another stop to swap with.')
    expect((await swap('nowhere 2020-01-01T00:00:00.000Z')).statusCode).toBe(404)
    const answers: number[] = []
    for (const other of others) if (!answers.includes(303)) answers.push((await swap(other)).statusCode)
    expect(answers).toContain(303)
    const pins = desk.wishes.all(night.id).filter(({ kind }) => kind === 'pin')
    expect(pins.map(({ targetKey }) => targetKey)).toContain('moon')
    expect(new Set(pins.map(({ stationId }) => stationId)).size).toBeGreaterThan(1)
  })
})

describe('the page of wishes', { timeout: SLOW_MS }, () => {
  it('finds a thing by name and asks for it', async () => {
    for (const { id } of desk.wishes.all(night.id)) desk.wishes.takeBack(night.id, id)
    const html = await page(`${path}/wishes?q=ring+nebula`)
    expect(html).toContain('<option value="m57">Ring Nebula</option>')
    const asked = { q: 'ring nebula', what: 'ask', targetKey: 'm57', stationId: '', startsAt: '18:00', endsAt: '21:00' }
    expect((await post(`${path}/wishes`, asked)).statusCode).toBe(303)
    expect(await page(`${path}/wishes`)).toContain('Ring Nebula somewhere for half an hour')
    expect(await page(`${path}/wishes?q=zzzz`)).toContain('Nothing that a telescope can show answers to zzzz.')
  })

  it('refuses what cannot be, names the conflict and what would resolve it, and keeps what was typed', async () => {
    const pin = {
      q: 'm42',
      what: 'pin',
      targetKey: 'm42',
      stationId: stationOf('Big reflector'),
      startsAt: '18:45',
      endsAt: '19:15',
    }
    const answer = await post(`${path}/wishes`, pin)
    expect(answer.statusCode).toBe(422)
    expect(answer.body).toContain('At 18:45 Orion Nebula stands behind the oak, seen from Big reflector.')
    expect(answer.body).toContain('It would do at Big reflector from 20:00 to 21:00.')
    expect(answer.body).toContain('<option value="18:45" selected>18:45</option>')
    expect((await post(`${path}/wishes`, { what: 'pin', targetKey: 'm42' })).statusCode).toBe(422)
  })

  it('names the field of what cannot be wished, and leads to it', async () => {
    const station = await post(`${path}/wishes`, { what: 'purpose', purposeStation: 'nowhere', group: 'stars' })
    expect(station.body).toContain('<a href="#field-purposeStation">Telescope: This station is not part of the night.')
    const thing = await post(`${path}/wishes`, { what: 'ask', targetKey: 'nothing', q: 'orion' })
    expect(thing.body).toContain('<a href="#field-targetKey">Thing: This is not on the list of things to show.')
  })

  it('says what a telescope is for', async () => {
    const purpose = { what: 'purpose', purposeStation: stationOf('Low refractor'), group: 'moon-and-planets' }
    expect((await post(`${path}/wishes`, purpose)).statusCode).toBe(303)
    expect(await page(`${path}/wishes`)).toContain(
      'Only Moon and planets at Low refractor, while any of it can be shown',
    )
    const again = await post(`${path}/wishes`, { ...purpose, group: 'moon' })
    expect(again.body).toContain('Low refractor is kept for something else already.')
  })

  it('shows why a build was refused, beside the wish, while the programme of before stays', async () => {
    const before = desk.tours.current(night.id)
    const { horizon, ...site } = night.site
    const walls = horizon.map((point) => ({ ...point, altitudeDeg: 60, name: 'hall' }))
    desk.sites.change(night.site.id, { ...site, horizon: walls })
    const answer = await post(`${path}/programme`, {})
    expect(answer.headers.location).toBe(`${path}/wishes`)
    expect(await page(`${path}/wishes`)).toContain('Ring Nebula stands behind the hall in these hours.')
    const json = await send('POST', `/api/nights/${night.id}/tour`, {})
    expect(json.statusCode).toBe(409)
    expect(json.json().error.message).toContain('the programme of before stays')
    expect(desk.tours.current(night.id)).toEqual(before)
    desk.sites.change(night.site.id, { ...site, horizon })
  })
})

describe('wishes as JSON', { timeout: SLOW_MS }, () => {
  it('are kept, read by anyone with their cost and conflict, and taken back', async () => {
    for (const { id } of desk.wishes.all(night.id)) desk.wishes.takeBack(night.id, id)
    const url = `/api/nights/${night.id}/wishes`
    const kept = await send('POST', url, { kind: 'bar', targetKey: 'ngc7078' })
    expect(kept.statusCode).toBe(201)
    expect(kept.json()).toMatchObject({ kind: 'bar', targetKey: 'm15', stationId: null, things: [] })
    const read = JSON.parse(await guest(url))
    expect(read).toMatchObject({ zone: night.site.zone, wishes: [{ ...kept.json(), isAsleep: false, conflict: [] }] })
    const wrong = await send('POST', url, { kind: 'ask', targetKey: 'm15' })
    expect(wrong.statusCode).toBe(422)
    expect(wrong.json().error.problems[0]).toMatchObject({ code: 'wish.barred-asked' })
    expect((await send('POST', url, { kind: 'hope' })).statusCode).toBe(422)
    expect((await send('DELETE', `${url}/${kept.json().id}`)).statusCode).toBe(204)
    expect((await send('DELETE', `${url}/${kept.json().id}`)).statusCode).toBe(404)
    expect(JSON.parse(await guest(url)).wishes).toEqual([])
  })
})
