import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { loadAssets } from '../../server/web/assets.ts'
import { readWordTables } from '../../server/web/language.ts'
import { pageWriter } from '../../server/web/views.ts'
import { asHost, type TestApp, testApp } from '../support/web.ts'

let service: TestApp
beforeAll(async () => {
  const assets = await loadAssets()
  service = await testApp({ words: readWordTables(), assets, writePage: pageWriter(assets) })
})
afterAll(() => service.app.close())

const post = (url: string, fields: Record<string, string>) =>
  service.app.inject(
    asHost({
      method: 'POST',
      url,
      headers: { 'content-type': 'application/x-www-form-urlencoded' },
      payload: new URLSearchParams(fields).toString(),
    }),
  )
const NIGHT = {
  title: 'Stars for all',
  siteId: 'site-1',
  'stations.0.kind': 'telescope',
  'stations.0.telescopeId': 'telescope-1',
}

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
      'March 1, 2027, after midnight: the night that began on the evening of Sunday, February 28, 2027.',
    )
    expect((await post('/nights', { ...late, opens: '22:00' })).body).not.toContain('after midnight')
  })
})
