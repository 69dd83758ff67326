import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { newcomersPage } from '../../server/web/pages/newcomers.ts'
import { nightFormPage } from '../../server/web/pages/night-form.ts'
import { fakeDesk } from '../support/fake-desk.ts'
import { A_SITE } from '../support/field-data.ts'
import { A_LEARNING, AN_IN_USE, NOTHING_LEARNT } from '../support/learning-data.ts'
import { ENGLISH, HOST, VISITOR } from '../support/page-data.ts'
import { asHost, asVisitor, formPost, type TestApp, testApp } from '../support/web.ts'

const A_TUBE = { ...NOTHING_LEARNT.site, telescopeId: 'telescope-1', name: 'Six inches' }
const subject = { site: A_SITE, learning: A_LEARNING, inUse: undefined, trouble: null }
const learning = (factor: number, telling = 23) => ({ ...A_LEARNING, site: { ...A_LEARNING.site, factor, telling } })

describe('the page of a site’s newcomers', () => {
  it('says the factor with its range, what it means, and what would hold without any taps', () => {
    expect(newcomersPage(HOST, subject).taps).toEqual([
      '3.1 times as much light, from 23 taps. In four cases of five the true number lies between 2.4 and 4.0.',
      'So newcomers here see things that are 0.3 magnitudes fainter than usual.',
      'Without any taps it would be 4.0, between 2.4 and 5.0: that is the published range.',
      expect.stringMatching(/^There are 31 taps in all; 23 tell something\./),
    ])
  })

  it('speaks of other taps only where there are others', () => {
    const counted = (telling: number, marks: number) =>
      newcomersPage(HOST, { ...subject, learning: { ...learning(3.1, telling), marks } }).taps.at(-1)
    expect(counted(2, 2)).toBe('There are 2 taps in all, and all of them tell something.')
    expect(counted(1, 1)).toBe('There is one tap in all, and it tells something.')
    expect(counted(1, 2)).toContain('The others are about')
  })

  it('says so when people see less than usual, or as much', () => {
    const second = (factor: number) => newcomersPage(HOST, { ...subject, learning: learning(factor) }).taps[1]
    expect(second(4.8)).toBe('So newcomers here need things to be 0.2 magnitudes brighter than usual.')
    expect(second(3.9)).toBe('That is as good as the usual number.')
  })

  it('offers the host the number of the taps, and the usual one once another is in use', () => {
    const choices = (inUse: typeof AN_IN_USE | undefined, factor = 3.12) =>
      newcomersPage(HOST, { ...subject, inUse, learning: learning(factor) }).choices.map(({ text }) => text)
    expect(choices(undefined)).toEqual(['Use 3.1 from now on at this site'])
    expect(choices(AN_IN_USE)).toEqual(['Use 3.1 from now on at this site', 'Go back to the usual 4'])
    expect(choices(AN_IN_USE, 3.31)).toEqual(['Go back to the usual 4'])
  })

  it('says who set the number in use, from how much and when by the clocks of the site', () => {
    expect(newcomersPage(HOST, { ...subject, inUse: AN_IN_USE }).inUse).toBe(
      '3.3 times as much light (2.5 to 4.2), set by the host from 12 taps on Saturday 14 November 2026.',
    )
    expect(newcomersPage(HOST, subject).inUse).toBe('4.0 times as much light, the usual number.')
  })

  it('offers nothing to take when no tap tells anything, and nothing to a visitor', () => {
    const page = newcomersPage(HOST, { ...subject, learning: NOTHING_LEARNT })
    expect(page.choices).toEqual([])
    expect(page.taps).toEqual([expect.stringMatching(/^No tap tells anything yet/)])
    expect(newcomersPage(VISITOR, { ...subject, inUse: AN_IN_USE }).choices).toEqual([])
  })
})

describe('the form of a night', () => {
  const factorField = (factors: Parameters<typeof nightFormPage>[1]['factors']) =>
    nightFormPage(HOST, {
      night: null,
      state: { values: {}, problems: [] },
      halfHours: [],
      stationRows: 1,
      sites: [A_SITE],
      telescopes: [],
      factors,
    }).settings.find(({ name }) => name === 'settings.noviceFactor')

  it('shows the usual factor while no site has its own', () => {
    expect(factorField([])).toMatchObject({ value: '4', hint: ENGLISH.say('setting.noviceFactor-hint') })
  })

  it('leaves the factor to the site once one has its own, and says where that comes from', () => {
    const field = factorField([{ ...AN_IN_USE, siteId: A_SITE.id, site: A_SITE.name }])
    expect(field?.value).toBe('')
    expect(field?.hint).toContain('At Sheep meadow 3.3 (2.5 to 4.2), set by the host from 12 taps.')
  })
})

describe('the factor of a site over the web', () => {
  let service: TestApp
  beforeAll(async () => {
    service = await testApp()
  })
  afterAll(() => service.app.close())
  const post = (payload: Record<string, string>) =>
    service.app.inject(asHost(formPost('/sites/site-1/newcomers', payload)))
  const told = async () => (await service.app.inject(asVisitor({ url: '/api/sites/site-1/newcomers' }))).json()
  const newNight = async (changes: Record<string, string> = {}) => {
    const form = { title: 'A night', siteId: 'site-1', date: '2026-11-21', opens: '18:30', closes: '19:00', ...changes }
    const station = {
      'stations.0.name': 'Oak',
      'stations.0.kind': 'telescope',
      'stations.0.telescopeId': 'telescope-1',
    }
    const answer = await service.app.inject(asHost(formPost('/nights', { ...form, ...station })))
    expect(answer.statusCode).toBe(303)
    return service.kept.nights.at(-1)?.settings.noviceFactor
  }

  it('is told to anyone as data, with its prior', async () => {
    expect(await told()).toMatchObject({
      siteId: 'site-1',
      zone: 'Europe/Berlin',
      site: { factor: 3.12, low: 2.44, high: 3.96, telling: 23, prior: { factor: 4, low: 2.4, high: 5 } },
      telescopes: [{ telescopeId: 'telescope-1' }],
      marks: 31,
      nights: 2,
      inUse: null,
    })
    const missing = await service.app.inject(asVisitor({ url: '/api/sites/nowhere/newcomers' }))
    expect(missing.statusCode).toBe(404)
  })

  it('is the published range to the digit while no tap tells anything', async () => {
    const { desk } = fakeDesk()
    const learning = { ...desk.learning, ofSite: async () => ({ ...NOTHING_LEARNT, telescopes: [A_TUBE] }) }
    const fresh = await testApp({ desk: { ...desk, learning } })
    const answer = (await fresh.app.inject(asVisitor({ url: '/api/sites/site-1/newcomers' }))).json()
    await fresh.app.close()
    for (const told of [answer.site, answer.telescopes[0]])
      expect(told).toMatchObject({ factor: 4, low: 2.4, high: 5, telling: 0 })
  })

  it('stays the usual for new nights until the host takes another, and again after going back', async () => {
    expect(await newNight()).toBe(4)
    expect((await post({ act: 'use', factor: '3.1' })).headers.location).toBe('/sites/site-1/newcomers')
    expect((await told()).inUse).toMatchObject({ factor: 3.1, low: 2.4, high: 4, marks: 23 })
    expect(await newNight()).toBe(3.1)
    expect(await newNight({ 'settings.noviceFactor': '2.5' })).toBe(2.5)
    expect((await post({ act: 'usual', factor: '' })).statusCode).toBe(303)
    expect((await told()).inUse).toBeNull()
    expect(await newNight()).toBe(4)
  })

  it('is not taken when the number has moved since it was read, nor by a form that no page has made', async () => {
    expect((await post({ act: 'use', factor: '2.9' })).statusCode).toBe(409)
    expect((await post({ act: 'double', factor: '3.1' })).statusCode).toBe(422)
    expect((await told()).inUse).toBeNull()
  })

  it('grows from taps of the field page, which a plain form brings as well', async () => {
    const answer = await service.app.inject(
      asHost(
        formPost('/field/night-1/marks', {
          key: 'key-of-a-tap',
          kind: 'seen',
          stationId: 'station-1',
          targetKey: 'm13',
          who: 'half',
        }),
      ),
    )
    expect(answer.statusCode).toBe(303)
    expect(service.kept.marks.at(-1)).toMatchObject({
      kind: 'seen',
      stationId: 'station-1',
      payload: { targetKey: 'm13', who: 'half' },
    })
  })

  it('is not taken by a visitor', async () => {
    const answer = await service.app.inject(
      asVisitor({ method: 'POST', url: '/sites/site-1/newcomers', payload: { act: 'use', factor: '3.1' } }),
    )
    expect(answer.statusCode).toBe(403)
    expect((await told()).inUse).toBeNull()
  })
})
