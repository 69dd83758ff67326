import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { A_TELESCOPE } from '../support/field-data.ts'
import { pagedApp } from '../support/paged-app.ts'
import { filledIn } from '../support/typed-form.ts'
import { asHost, formPost, type TestApp } from '../support/web.ts'

let service: TestApp
beforeAll(async () => {
  service = await pagedApp()
})
afterAll(() => service.app.close())

const post = (url: string, fields: Record<string, string>) => service.app.inject(asHost(formPost(url, fields)))
const NIGHT = {
  title: 'Stars for all',
  siteId: 'site-1',
  'stations.0.kind': 'telescope',
  'stations.0.telescopeId': 'telescope-1',
}

const EVENING = { ...NIGHT, date: '2026-11-20', opens: '18:30', closes: '20:00' }

describe('the row in the form of a night', () => {
  it('loses no station of a full row to an error, nor to one more half hour', async () => {
    const row = Object.fromEntries(
      Array.from({ length: 12 }, (_, i) => [
        [`stations.${i}.name`, `Place ${i}`],
        [`stations.${i}.kind`, 'binoculars'],
        [`stations.${i}.operator`, `Person ${i}`],
      ]).flat(),
    )
    const full = filledIn((await post('/nights', { ...EVENING, ...row, stationRows: '11', act: 'more' })).body)
    expect(full).toMatchObject({ ...row, stationRows: '12' })
    const wrong = await post('/nights', { ...full, title: '' })
    expect([wrong.statusCode, filledIn(wrong.body)]).toMatchObject([422, row])
    const { stationRows: _stationRows, ...bare } = full
    expect(filledIn((await post('/nights', { ...bare, title: '' })).body)).toMatchObject(row)
  })

  it('starts with the row of the night before, and with its people', async () => {
    const page = (await service.app.inject(asHost({ url: '/nights/new' }))).body
    expect(filledIn(page)).toMatchObject({
      'stations.0.name': 'By the oak',
      'stations.0.telescopeId': 'telescope-1',
      'stations.0.operator': 'Ines',
    })
    expect(page).toContain('This is the row of Moon over the meadow, Friday 20 November 2026.')
    expect(page).toContain('Good for')
  })

  it('puts all telescopes into the row at one press, each once', async () => {
    const others = [2, 3].map((n) => ({ ...A_TELESCOPE, id: `telescope-${n}`, name: `Tube ${n}` }))
    const away = { ...A_TELESCOPE, id: 'telescope-9', isPutAway: true }
    service.kept.telescopes.push(...others, away)
    const answer = await post('/nights', { ...EVENING, 'stations.0.operator': 'Ines', act: 'all' })
    const filled = filledIn(answer.body)
    const row = [0, 1, 2, 3].map((i) => filled[`stations.${i}.telescopeId`]).filter(Boolean)
    expect(row).toEqual(['telescope-1', 'telescope-2', 'telescope-3'])
    expect([filled['stations.0.operator'], filled['stations.1.name']]).toEqual(['Ines', 'Tube 2'])
    expect(answer.statusCode).toBe(200)
  })
})

describe('the form of a night in which the clocks change', () => {
  it('has no row for a half hour that the clock change skips, and keeps such a night', async () => {
    const spring = { ...NIGHT, date: '2027-03-27', opens: '22:00', closes: '03:30' }
    const form = await post('/nights', { ...spring, act: 'hours' })
    const starts = [...form.body.matchAll(/name="visitors\.\d+\.startsAt" value="([^"]+)"/g)].map(([, start]) => start)
    expect(starts.slice(6)).toEqual(['01:00', '01:30', '03:00'])
    const rows = Object.fromEntries(starts.map((start, i) => [`visitors.${i}.startsAt`, start ?? '']))
    expect((await post('/nights', { ...spring, ...rows })).statusCode).toBe(303)
    expect(service.kept.nights.at(-1)?.visitors.slice(6)).toMatchObject([
      { startsAt: '01:00' },
      { startsAt: '01:30' },
      { startsAt: '03:00' },
    ])
  })

  it('says that a half hour with people in it does not exist that night', async () => {
    const spring = { ...NIGHT, date: '2027-03-27', opens: '22:00', closes: '03:30' }
    const answer = await post('/nights', { ...spring, 'visitors.0.startsAt': '02:30', 'visitors.0.adults': '9' })
    expect(answer.statusCode).toBe(422)
    expect(answer.body).toContain('02:30 does not exist that night')
  })

  it('has one row for a half hour that comes twice', async () => {
    const autumn = { ...NIGHT, date: '2027-10-30', opens: '22:00', closes: '03:30' }
    const form = await post('/nights', { ...autumn, act: 'hours' })
    expect(form.body.match(/value="02:[03]0"/g)).toEqual(['value="02:00"', 'value="02:30"'])
    expect((await post('/nights', autumn)).statusCode).toBe(303)
  })
})

describe('the form of a night that opens after midnight', () => {
  it('says to which evening it belongs', async () => {
    const late = { ...NIGHT, date: '2027-03-01', opens: '00:30', closes: '03:00', act: 'hours' }
    expect((await post('/nights', late)).body).toContain(
      '1 March 2027, after midnight: the night that began on the evening of Sunday 28 February 2027.',
    )
    expect((await post('/nights', { ...late, opens: '22:00' })).body).not.toContain('after midnight')
  })
})
