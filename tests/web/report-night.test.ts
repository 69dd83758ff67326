import type { FastifyInstance } from 'fastify'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { north } from '../../seed-demo/north.ts'
import { seedEvening } from '../../seed-demo/seed.ts'
import { buildApp } from '../../server/app.ts'
import type { Desk } from '../../server/desk/desk.ts'
import type { Night } from '../../server/tours/night.ts'
import { readWordTables } from '../../server/web/language.ts'
import { ASSETS } from '../support/assets.ts'
import { AFTERNOON, freshFolder, openDesk, removeFolder, SLOW_MS, standingClock } from '../support/desk-folder.ts'
import { playNight } from '../support/played-night.ts'
import { judgeActs, judgePeople, judgeShowings } from '../support/played-report.ts'
import type { PlayedNotes } from '../support/played-stage.ts'
import { asHost, asVisitor, HOST, LAN_HOST, WIDE } from '../support/web.ts'

const PIN = '271828'
const folder = freshFolder()
const clock = standingClock(AFTERNOON)
let desk: Desk
let app: FastifyInstance
let night: Night
let notes: PlayedNotes
let cookie = ''

const asked = async (url: string) => app.inject(asHost({ url, headers: { cookie } }))
const posted = (url: string, fields: Readonly<Record<string, string>> = {}) =>
  app.inject(
    asHost({
      method: 'POST',
      url,
      headers: { cookie, 'content-type': 'application/x-www-form-urlencoded' },
      payload: new URLSearchParams(fields).toString(),
    }),
  )
const sum = (numbers: readonly number[]): number => numbers.reduce((total, number) => total + number, 0)

beforeAll(async () => {
  desk = await openDesk(folder, { pin: PIN, clock })
  const allowedHosts = () => new Set([HOST, LAN_HOST])
  app = await buildApp({ desk, clock, words: readWordTables(), allowedHosts, limits: WIDE, assets: await ASSETS })
  const session = await app.inject(asHost({ method: 'POST', url: '/api/session', payload: { pin: PIN } }))
  cookie = String(session.headers['set-cookie']).split(';')[0] ?? ''
  night = seedEvening(desk, north)
  await desk.tours.build(night.id, { steps: 20_000 })
  const { code } = desk.joins.codes(night.id)
  notes = await playNight({
    ask: async (options) => app.inject(options),
    night,
    hostCookie: cookie,
    code,
    moveTo: clock.moveTo,
  })
}, SLOW_MS)
afterAll(async () => {
  await app.close()
  await desk.close()
  removeFolder(folder)
})

describe('the report of the demo night, played by a script that counts for itself', () => {
  it('lists what was shown, by whom it is known, and with the script’s looks', async () => {
    judgeShowings((await asked(`/api/nights/${night.id}/report`)).json(), notes)
  })

  it('has the script’s people, peak and waits', async () => {
    judgePeople((await asked(`/api/nights/${night.id}/report`)).json(), notes)
  })

  it('tells who acted to the host alone, and estimates visitors by the sentence it gives', async () => {
    const report = (await asked(`/api/nights/${night.id}/report`)).json()
    judgeActs(report, notes)
    const { looks, looksPerVisitor, visitors, message } = report.estimate
    expect(Math.round(looks / looksPerVisitor)).toBe(visitors)
    expect(message).toContain(`make about ${visitors} visitors`)
    const { code } = desk.joins.codes(night.id)
    const payload = { secret: code, name: 'Ines', role: 'operator' }
    const joined = await app.inject(asVisitor({ method: 'POST', url: '/api/join', payload }))
    const phone = String(joined.headers['set-cookie']).split(';')[0] ?? ''
    const theirs = await app.inject(asVisitor({ url: `/api/nights/${night.id}/report`, headers: { cookie: phone } }))
    expect([theirs.statusCode, theirs.json().acted, theirs.json().looks]).toEqual([200, null, looks])
    for (const name of ['Mirela', 'Jonas', 'Adaeze', 'Pirkko']) expect(theirs.body).not.toContain(name)
  })

  it('is edited beside the reckoned numbers, closed, and then part of the season', async () => {
    const page = `/nights/${night.id}/report`
    expect((await posted(page, { adults: 'many', improve: 'Red lamps.' })).statusCode).toBe(422)
    expect((await posted(page, { adults: '61', improve: '=Red lamps.' })).statusCode).toBe(303)
    const { numbers, people } = (await asked(`/api${page}`)).json()
    expect(numbers.adults).toEqual({ reckoned: people.came.adults, host: 61 })
    expect((await posted(`${page}/close`)).statusCode).toBe(303)
    expect(desk.nights.find(night.id).state).toBe('closed')
    expect(() => desk.go.decide(night.id, 'on', '', { role: 'host', name: 'host' })).toThrow('fault.go-closed')
    expect((await posted(page, { adults: '62' })).statusCode).toBe(409)
    expect((await asked(page)).body).toContain('This night is closed')
    const csv = await asked(`${page}.csv`)
    expect(csv.headers['content-type']).toContain('text/csv')
    expect(csv.body).toContain(`words,improve,,,,,,,"'=Red lamps."\r\n`)
    const season = (await asked('/api/season/2026')).json()
    const { looks } = (await asked(`/api${page}`)).json()
    expect([season.looks, sum(season.looksByHour.map((hour: { looks: number }) => hour.looks))]).toEqual([looks, looks])
    expect(season.came).toEqual({ adults: 61, children: people.came.children })
    const theirs = await app.inject(asVisitor({ url: '/api/season/2026' }))
    expect([theirs.json().looks, theirs.json().nights[0].operators]).toEqual([looks, null])
    expect((await app.inject(asVisitor({ url: '/season' }))).body).not.toContain('Adaeze')
    expect((await posted(`${page}/reopen`)).statusCode).toBe(303)
    expect(desk.nights.find(night.id).state).toBe('planned')
    expect((await app.inject(asVisitor({ url: '/api/season/2026' }))).json().nights).toEqual([])
  })
})
