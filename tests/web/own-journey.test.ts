import request from 'supertest'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { north } from '../../seed-demo/north.ts'
import { seedEvening } from '../../seed-demo/seed.ts'
import { buildApp } from '../../server/app.ts'
import type { Desk } from '../../server/desk/desk.ts'
import { readWordTables } from '../../server/web/language.ts'
import { ownExample } from '../../server/web/pages/own-example.ts'
import { ownObjectValues } from '../../server/web/routes/own-object-draft.ts'
import { freshFolder, openDesk, removeFolder, SLOW_MS, standingClock } from '../support/desk-folder.ts'
import { A_COMET_DRAFT } from '../support/own-object-data.ts'
import { ENGLISH } from '../support/page-data.ts'
import { WIDE } from '../support/web.ts'

const OWN_EXAMPLE = ownExample(ENGLISH)
const PIN = '271828'
const folder = freshFolder()
let desk: Desk
let url = ''
let stop = async (): Promise<unknown> => undefined

beforeAll(async () => {
  const clock = standingClock('2026-12-17T15:00:00Z')
  desk = await openDesk(folder, { pin: PIN, clock })
  const allowedHosts = () => new Set([new URL(url).host])
  const app = await buildApp({ desk, clock, words: readWordTables(), allowedHosts, limits: WIDE })
  url = await app.listen({ port: 0, host: '127.0.0.1' })
  stop = async () => {
    await app.close()
    await desk.close()
  }
}, SLOW_MS)
afterAll(async () => {
  await stop()
  removeFolder(folder)
})

it('a host enters a comet, corrects it, brings in a list, takes a thing off, and finds own words on the card', {
  timeout: SLOW_MS,
}, async () => {
  const night = seedEvening(desk, north)
  const agent = request.agent(url)
  await agent.post('/api/session').set('Origin', url).send({ pin: PIN }).expect(201)
  const post = (path: string, values: object) => agent.post(path).set('Origin', url).type('form').send(values)
  const page = async (path: string) => (await agent.get(path).expect(200)).text
  const build = () => agent.post(`/api/nights/${night.id}/tour`).set('Origin', url).send({ steps: 60 }).expect(201)

  const typed = ownObjectValues(A_COMET_DRAFT, { words: ENGLISH, nights: [] })
  const refused = await post('/extras', { ...typed, majorArcmin: '' }).expect(422)
  expect(refused.text).toMatch(/id="field-majorArcmin-problem">This is missing\./)
  await post('/extras', typed).expect(303)
  const [comet] = desk.own.all()
  const key = comet?.key ?? ''
  expect(await page('/extras')).toContain('Comet in Andromeda')

  await build()
  await post(`/extras/${key}`, { ...typed, magnitude: '4.2', raDeg: '2h 00m', decDeg: "40° 30'" }).expect(303)
  expect(await page('/extras')).toContain('Right ascension 30.00°, declination 40.50°')
  expect(await page(`/nights/${night.id}/print/cards`)).toContain('Out of date')
  const tour = (await build()).body
  expect([...tour.stops, ...tour.spares].map(({ targetKey }: { targetKey: string }) => targetKey)).toContain(key)

  const broken = OWN_EXAMPLE.replace('9.1', 'bright').replace('New star', 'Comet Häberli')
  const wrong = await post('/extras/import', { list: broken }).expect(422)
  expect(wrong.text).toContain('Line 3, column magnitude: Write a number here.')
  expect(wrong.text).toContain('Line 6, column name: Something is already called Comet Häberli.')
  expect(desk.own.all()).toHaveLength(1)
  const taken = await post('/extras/import', { list: OWN_EXAMPLE }).expect(303)
  expect(await page(taken.headers.location ?? '')).toContain('6 things were added.')
  expect(await page(`/nights/${night.id}/objects`)).toMatch(
    /Space station<\/b> 18:42 to 18:48, from west to east-north-east/,
  )

  const lanterns = desk.own.all().find(({ draft }) => draft.name === 'The Two Lanterns')
  await post(`/extras/${lanterns?.key}/remove`, {}).expect(303)
  expect((await agent.get('/api/objects?q=lanterns')).body.objects).toEqual([])
  expect(await page('/extras')).toContain(`/extras/${lanterns?.key}/back`)

  await post(`/objects/${key}/words?language=en`, { see: 'A soft ball of light & no tail.' }).expect(303)
  await post(`/objects/${key}/words?language=de`, { see: 'Ein weicher Lichtball.' }).expect(303)
  const cards = await page(`/nights/${night.id}/print/cards?second=de`)
  expect(cards).toContain('A soft ball of light &amp; no tail.')
  expect(cards).toMatch(/<div class="second" lang="de"><p>Ein weicher Lichtball\.<\/p><\/div>/)
  await post(`/objects/${key}/words/back?language=de`, {}).expect(303)
  expect(await page(`/nights/${night.id}/print/cards?second=de`)).not.toContain('Lichtball')
})
