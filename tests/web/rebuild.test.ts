import { afterAll, describe, expect, it } from 'vitest'
import type { NightDraft } from '../../server/tours/night.ts'
import { draftOf } from '../../server/tours/night-draft.ts'
import { SLOW_MS, standingClock } from '../support/desk-folder.ts'
import { hostedNight } from '../support/hosted-night.ts'
import { formsTo } from '../support/html-forms.ts'
import { asVisitor } from '../support/web.ts'

const STALE = 'The night was changed after this programme was built'
const GONE = 'Big reflector'
const clock = standingClock('2026-12-17T16:20:00Z')
const { app, desk, night, send, post, page, guest, close } = await hostedNight(clock)
afterAll(close)

const tourJson = async (query = '') => JSON.parse(await guest(`/api/nights/${night.id}/tour${query}`))
const build = (seed: number) => send('POST', `/api/nights/${night.id}/tour`, { seed, steps: 5 })
const change = (more: Partial<NightDraft>) => desk.nights.change(night.id, { ...draftOf(night), ...more })
/** The form of a page that accepts a programme. */
const acceptForm = (html: string) => formsTo(html, '/accept')[0]

const PAPERS = ['run-sheet', 'sheets', 'cards'].map((name) => (id: string) => `/nights/${id}/print/${name}`)

describe('a night that is changed and built again', { timeout: SLOW_MS }, () => {
  it('says nothing of it while all still holds', async () => {
    expect((await build(1)).json()).toMatchObject({ version: 1, isCurrent: true, isStale: false, waitingVersion: null })
    for (const path of [`/nights/${night.id}`, `/nights/${night.id}/programme`, ...PAPERS.map((of) => of(night.id))]) {
      expect(await page(path), path).not.toContain('changed after this programme')
    }
  })

  it('says so on board, programme, paper and JSON once its hours and its row were changed, with the button', async () => {
    const {
      visitors,
      stations: [low, driven, , twin],
    } = draftOf(night)
    if (!low || !driven || !twin) throw new Error('The row of the demo has four stations')
    change({
      opens: '18:30',
      visitors: visitors.slice(1),
      stations: [low, { ...driven, telescopeId: twin.telescopeId }, { ...twin, telescopeId: driven.telescopeId }],
    })
    const again = `action="/nights/${night.id}/programme"`
    for (const path of ['', '/programme', '/check'].map((end) => `/nights/${night.id}${end}`)) {
      const html = await page(path)
      expect(html, path).toContain(STALE)
      expect(html, path).toContain(again)
      expect(html, path).not.toContain('All is as planned')
      expect(await guest(path), path).not.toContain(again)
    }
    for (const paper of PAPERS) expect(await guest(paper(night.id))).toContain('Out of date')
    expect(await tourJson()).toMatchObject({ version: 1, isCurrent: true, isStale: true })
  })

  it('names a station that left the row, and never says its id', async () => {
    const gone = night.stations[2]?.id ?? ''
    const { stops } = await tourJson()
    expect(stops.find(({ stationId }: { stationId: string }) => stationId === gone).stationName).toBe(GONE)
    for (const path of ['programme', 'programme?by=time', 'print/run-sheet']) {
      const html = await page(`/nights/${night.id}/${path}`)
      expect(html, path).toContain(GONE)
      expect(html, path).not.toContain(gone)
    }
    expect(await page(`/nights/${night.id}/programme`)).toContain('no longer in the row')
  })

  it('goes by the new programme at once when nothing has been shown yet', async () => {
    const built = await post(`/nights/${night.id}/programme`)
    expect([built.statusCode, built.headers.location]).toEqual([303, `/nights/${night.id}/programme`])
    expect(await tourJson()).toMatchObject({ version: 2, isCurrent: true, isStale: false, waitingVersion: null })
    const html = await page(`/nights/${night.id}/programme`)
    expect(html).toContain('Version 2')
    expect(html).not.toContain(STALE)
    expect(html).not.toContain(GONE)
  })

  it('keeps the field page on the old programme until the host accepts the new one, by a plain form', async () => {
    clock.moveTo('2026-12-17T18:00:00Z')
    const old = await tourJson()
    const [{ stationId, targetKey, aim }] = old.stops
    const showing = { key: 'phone-shows', kind: 'showing', stationId, payload: { targetKey, aim }, secondsAgo: 0 }
    await send('POST', `/api/nights/${night.id}/marks`, { marks: [showing] })
    const undo = { key: 'phone-undo1', kind: 'undo', stationId, payload: { markKey: 'phone-shows' }, secondsAgo: 0 }
    const gone = {
      key: 'phone-is-gone',
      kind: 'station',
      stationId: old.stops.at(-1).stationId,
      payload: { is: 'out' },
      secondsAgo: 0,
    }
    /** The programme that the row goes by. */
    const row = async () => /data-tour-version="(\d+)"/.exec(await guest(`/field/${night.id}`))?.[1]
    expect(await row()).toBe('2')
    const field = async () => desk.marks.field(night.id).stations.map((station) => station.showing?.targetKey)
    const fieldBefore = await field()
    await send('POST', `/api/nights/${night.id}/marks`, { marks: [gone] })

    expect((await build(99)).json()).toMatchObject({ version: 3, isCurrent: false, waitingVersion: 3 })
    expect(await row()).toBe('2')
    expect(await field()).toEqual(fieldBefore)
    expect(await tourJson()).toMatchObject({ version: 2, isCurrent: true, waitingVersion: 3 })
    expect(await tourJson('?version=3')).toMatchObject({ version: 3, isCurrent: false })
    expect(JSON.parse(await guest(`/api/nights/${night.id}/changes`)).tourVersion).toBe(2)
    expect(await page(`/nights/${night.id}/print/run-sheet`)).toContain('Programme version 2')
    for (const path of [`/nights/${night.id}`, `/nights/${night.id}/programme`]) {
      expect(await page(path)).toContain('A newer programme waits: version 3')
      expect(acceptForm(await guest(path))).toBeUndefined()
    }

    const look = await page(`/nights/${night.id}/programme?version=3`)
    expect(look).toContain('Version 3')
    const { action: url = '', fields } = acceptForm(look) ?? {}
    expect((await app.inject(asVisitor({ method: 'POST', url }))).statusCode).toBe(403)
    for (let sent = 0; sent < 2; sent++) {
      const accepted = await post(url, fields)
      expect([accepted.statusCode, accepted.headers.location]).toEqual([303, `/nights/${night.id}/programme`])
    }
    expect(desk.marks.since(night.id, 0).filter(({ kind }) => kind === 'accepted')).toHaveLength(1)
    expect(await tourJson()).toMatchObject({ version: 3, isCurrent: true, waitingVersion: null })
    expect(await row()).toBe('3')
    expect(await page(`/nights/${night.id}/print/run-sheet`)).toContain('Programme version 3')
    await send('POST', `/api/nights/${night.id}/marks`, { marks: [undo] })
    expect(await tourJson()).toMatchObject({ version: 3, isCurrent: true })
  })

  it('can go back to an older version, and knows no version that was never built', async () => {
    const { action: url = '', fields } = acceptForm(await page(`/nights/${night.id}/programme?version=2&by=time`)) ?? {}
    await post(url, fields)
    expect(await tourJson()).toMatchObject({ version: 2, isCurrent: true, waitingVersion: null })
    expect((await send('GET', `/api/nights/${night.id}/tour?version=9`)).statusCode).toBe(404)
    expect((await send('GET', `/nights/${night.id}/programme?version=0`)).statusCode).toBe(422)
  })
})
