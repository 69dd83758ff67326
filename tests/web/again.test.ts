import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { againPage } from '../../server/web/pages/again.ts'
import { AN_AGAIN, NEW, NOTHING_AGAIN, OLD } from '../support/again-data.ts'
import { A_NIGHT } from '../support/field-data.ts'
import { HOST, NAMES } from '../support/page-data.ts'
import { pagedApp } from '../support/paged-app.ts'
import { asHost, asVisitor, formPost, type TestApp } from '../support/web.ts'

let service: TestApp
beforeAll(async () => {
  service = await pagedApp()
})
afterAll(() => service.app.close())

const newKey = () => 'key-12345'
const subject = {
  night: A_NIGHT,
  state: AN_AGAIN,
  versions: [OLD, NEW],
  form: { values: {}, problems: [] },
  trouble: null,
  names: NAMES,
  newKey,
}
const ADDRESS = '/nights/night-1/again'
const post = (fields: Readonly<Record<string, string>>) =>
  service.app.inject(asHost(formPost(ADDRESS, { key: 'form-key-1', opens: '18:30', closes: '21:30', ...fields })))

describe('the form of what has changed', () => {
  it('is open until a programme waits, and again when something in it is wrong', () => {
    const isOpen = (more: object) => againPage(HOST, { ...subject, ...more }).form?.isOpen
    expect(isOpen({})).toBe(false)
    expect(isOpen({ state: NOTHING_AGAIN })).toBe(true)
    expect(isOpen({ form: { values: {}, problems: [{ field: 'adults', key: 'problem.type-integer' }] } })).toBe(true)
  })

  it('lets clouds last as told before unless another time is chosen', () => {
    const options = (news: object) =>
      againPage(HOST, {
        ...subject,
        state: { ...AN_AGAIN, news: { ...AN_AGAIN.news, ...news } },
      }).form?.minutes.options.map(({ value, text }) => `${value} ${text}`)
    expect(options({})?.[0]).toBe('as-told until 19:15, as told before')
    expect(options({ shutUntilAt: null })?.[0]).toBe('as-told until I say that it is clear')
    expect(options({ shutUntilAt: null })).toHaveLength(3)
    expect(options({ shut: [] })?.[0]).toBe('30 half an hour')
  })

  it('lies on the page as on a map, ticked where it is known, and has a new key each time', async () => {
    await service.desk.again.tell(A_NIGHT.id, { ...NO_CHANGE, shut: ['w', 'nw'], minutes: null }, 'host')
    const { body } = await service.app.inject(asHost({ url: ADDRESS }))
    const names = [...body.matchAll(/name="shut\.([\w-]+)"/g)].map(([, part]) => part)
    expect(names).toEqual(['nw', 'n', 'ne', 'w', 'overhead', 'e', 'sw', 's', 'se'])
    expect(
      [...body.matchAll(/name="shut\.(\w+)" type="checkbox" value="true" checked/g)].map(([, part]) => part),
    ).toEqual(['nw', 'w'])
    expect(body).toContain('name="opens" type="text" inputmode="text" value="18:30"')
    const keyOf = (html: string) => /name="key" value="([\w-]{20})"/.exec(html)?.[1]
    const again = (await service.app.inject(asHost({ url: ADDRESS }))).body
    expect(keyOf(body)).toBeTruthy()
    expect(keyOf(again)).not.toBe(keyOf(body))
    service.kept.marks.length = 0
  })
})

const NO_CHANGE = {
  key: 'form-key-0',
  shut: [],
  minutes: 'as-told',
  out: [],
  timed: null,
  adults: null,
  children: null,
  opens: '18:30',
  closes: '21:30',
} as const

describe('telling what has changed', () => {
  it('keeps nothing of a form in which something is wrong, and shows it as it was typed', async () => {
    const [marks, tours] = [service.kept.marks.length, service.kept.tours.length]
    const answer = await post({
      'shut.w': 'true',
      minutes: '60',
      'out.station-1': 'true',
      adults: 'many',
      'timed.seconds': '460',
    })
    expect(answer.statusCode).toBe(422)
    expect(answer.body).toContain('Adults: Write a whole number here.')
    expect(answer.body).toMatch(/name="shut\.w" type="checkbox" value="true" checked/)
    expect(answer.body).toMatch(/name="out\.station-1" type="checkbox" value="true" checked/)
    expect(answer.body).toContain('<option value="60" selected>an hour</option>')
    expect(answer.body).toMatch(/name="adults"[^>]*value="many"/)
    expect(answer.body).toMatch(/<details class="again-more" open>/)
    expect(answer.body).toContain('People: Write a whole number here.')
    expect([service.kept.marks.length, service.kept.tours.length]).toEqual([marks, tours])
  })

  it('makes the programme again and leads back to the page', async () => {
    const tours = service.kept.tours.length
    const answer = await post({ 'shut.w': 'true', minutes: 'open' })
    expect([answer.statusCode, answer.headers.location]).toEqual([303, `${ADDRESS}#new`])
    expect(service.kept.marks.map(({ kind, payload }) => [kind, payload])).toEqual([
      ['clouds', { shut: ['w'], minutes: null }],
    ])
    expect(service.kept.tours.length).toBe(tours + 1)
  })

  it('is for the host, while anyone may read', async () => {
    for (const url of [ADDRESS, `${ADDRESS}/drop`]) {
      expect((await service.app.inject(asVisitor({ method: 'POST', url }))).statusCode).toBe(403)
    }
    const { statusCode, body } = await service.app.inject(asVisitor({ url: ADDRESS }))
    expect(statusCode).toBe(200)
    expect(body).not.toContain('<form')
    expect((await service.app.inject(asVisitor({ url: '/nights/none/again' }))).statusCode).toBe(404)
  })

  it('is told as data', async () => {
    const answer = await service.app.inject(asVisitor({ url: '/api/nights/night-1/again' }))
    expect(answer.json()).toMatchObject({
      zone: 'Europe/Berlin',
      shut: ['w'],
      shutUntilAt: null,
      out: [],
      measured: [],
      crowd: 1,
      waitingVersion: null,
      changes: null,
    })
    expect((await service.app.inject(asVisitor({ url: '/api/nights/none/again' }))).statusCode).toBe(404)
  })
})
