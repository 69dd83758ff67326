import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { AFTERNOON, SLOW_MS, standingClock } from '../support/desk-folder.ts'
import { hostedNight } from '../support/hosted-night.ts'
import { playNight } from '../support/played-night.ts'
import { judgeActs, judgePeople, judgeShowings } from '../support/played-report.ts'
import type { PlayedNotes } from '../support/played-stage.ts'
import { asVisitor } from '../support/web.ts'

const clock = standingClock(AFTERNOON)
const { app, desk, night, cookie, join, send, post, page, guest, close } = await hostedNight(clock)
let notes: PlayedNotes

const sum = (numbers: readonly number[]): number => numbers.reduce((total, number) => total + number, 0)

beforeAll(async () => {
  await desk.tours.build(night.id)
  const { code } = desk.joins.codes(night.id)
  notes = await playNight({
    ask: async (options) => app.inject(options),
    night,
    hostCookie: cookie,
    code,
    moveTo: clock.moveTo,
  })
}, SLOW_MS)
afterAll(close)

describe('the report of the demo night, played by a script that counts for itself', () => {
  it('lists what was shown, by whom it is known, and with the script’s looks', async () => {
    judgeShowings((await send('GET', `/api/nights/${night.id}/report`)).json(), notes)
  })

  it('has the script’s people, peak and waits', async () => {
    judgePeople((await send('GET', `/api/nights/${night.id}/report`)).json(), notes)
  })

  it('tells who acted to the host alone, and estimates visitors by the sentence it gives', async () => {
    const report = (await send('GET', `/api/nights/${night.id}/report`)).json()
    judgeActs(report, notes)
    const { looks, looksPerVisitor, visitors, message } = report.estimate
    expect(Math.round(looks / looksPerVisitor)).toBe(visitors)
    expect(message).toContain(`make about ${visitors} visitors`)
    const phone = { cookie: await join('Ines') }
    const theirs = await app.inject(asVisitor({ url: `/api/nights/${night.id}/report`, headers: phone }))
    expect([theirs.statusCode, theirs.json().acted, theirs.json().looks]).toEqual([200, null, looks])
    for (const name of ['Mirela', 'Jonas', 'Adaeze', 'Pirkko']) expect(theirs.body).not.toContain(name)
  })

  it('is edited beside the reckoned numbers, closed, and then part of the season', async () => {
    const path = `/nights/${night.id}/report`
    expect((await post(path, { adults: 'many', improve: 'Red lamps.' })).statusCode).toBe(422)
    expect((await post(path, { adults: '61', improve: '=Red lamps.' })).statusCode).toBe(303)
    const { numbers, people } = (await send('GET', `/api${path}`)).json()
    expect(numbers.adults).toEqual({ reckoned: people.came.adults, host: 61 })
    expect((await post(`${path}/close`)).statusCode).toBe(303)
    expect(desk.nights.find(night.id).state).toBe('closed')
    expect(() => desk.go.decide(night.id, 'on', '', { role: 'host', name: 'host' })).toThrow('fault.go-closed')
    expect((await post(path, { adults: '62' })).statusCode).toBe(409)
    expect(await page(path)).toContain('This night is closed')
    const csv = await send('GET', `${path}.csv`)
    expect(csv.headers['content-type']).toContain('text/csv')
    expect(csv.body).toContain(`words,improve,,,,,,,"'=Red lamps."\r\n`)
    const season = (await send('GET', '/api/season/2026')).json()
    const { looks } = (await send('GET', `/api${path}`)).json()
    expect([season.looks, sum(season.looksByHour.map((hour: { looks: number }) => hour.looks))]).toEqual([looks, looks])
    expect(season.came).toEqual({ adults: 61, children: people.came.children })
    const theirs = await app.inject(asVisitor({ url: '/api/season/2026' }))
    expect([theirs.json().looks, theirs.json().nights[0].operators]).toEqual([looks, null])
    expect(await guest('/season')).not.toContain('Adaeze')
    expect((await post(`${path}/reopen`)).statusCode).toBe(303)
    expect(desk.nights.find(night.id).state).toBe('planned')
    expect((await app.inject(asVisitor({ url: '/api/season/2026' }))).json().nights).toEqual([])
  })
})
