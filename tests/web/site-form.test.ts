import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Town } from '../../server/tours/site.ts'
import { siteFormPage } from '../../server/web/pages/site-form.ts'
import { A_SITE } from '../support/field-data.ts'
import { HOST } from '../support/page-data.ts'
import { pagedApp } from '../support/paged-app.ts'
import { filledIn } from '../support/typed-form.ts'
import { asHost, asVisitor, formPost, type TestApp } from '../support/web.ts'

let service: TestApp
beforeAll(async () => {
  service = await pagedApp()
})
afterAll(() => service.app.close())

const post = (url: string, fields: Record<string, string>, as = asHost) => service.app.inject(as(formPost(url, fields)))
const get = async (url: string, as = asHost) => (await service.app.inject(as({ method: 'GET', url }))).body

const lastSite = () => service.kept.sites.at(-1)

const SITE = { name: 'Oak hill', latitudeDeg: '48,2', longitudeDeg: '11.6', heightM: '520', zone: 'Europe/Berlin' }

describe('the darkness of a site', () => {
  it('is the value of its class where a class was chosen beside the value that the page had shown', async () => {
    await post('/sites', { ...SITE, skyMag: '20', skyMagShown: '20', skyClass: '4' })
    expect(lastSite()?.skyMag).toBe(21.1)
    await post('/sites', { ...SITE, skyClass: '9' })
    expect(lastSite()?.skyMag).toBe(17.3)
  })

  it('is the value that was corrected, whatever class was chosen before', async () => {
    await post('/sites', { ...SITE, skyMag: '20,7', skyMagShown: '21.1', skyClass: '4' })
    expect(lastSite()?.skyMag).toBe(20.7)
    const wrong = await post('/sites', { ...SITE, name: '', skyMag: '20.7', skyMagShown: '21.1', skyClass: '4' })
    await post('/sites', { ...filledIn(wrong.body), name: 'Named now' })
    expect(lastSite()).toMatchObject({ name: 'Named now', skyMag: 20.7 })
  })

  it('shows the value of a class on demand, says about, and keeps nothing yet', async () => {
    const before = service.kept.sites.length
    const fields = { ...SITE, skyMag: '20', skyMagShown: '20', skyClass: '6', act: 'class' }
    const answer = await post('/sites', { ...fields, 'horizon.4.name': 'oak', 'glow.0.fromDeg': 'nw' })
    expect(answer.statusCode).toBe(200)
    expect(answer.body).toContain('19.2 is about class 6.')
    expect(filledIn(answer.body)).toMatchObject({
      ...SITE,
      skyMag: '19.2',
      skyMagShown: '19.2',
      skyClass: '6',
      'horizon.4.name': 'oak',
      'glow.0.fromDeg': 'nw',
    })
    expect(service.kept.sites).toHaveLength(before)
  })

  it('is asked for when neither was said, without a value that nobody typed', async () => {
    const answer = await post('/sites', SITE)
    expect(answer.statusCode).toBe(422)
    expect(answer.body).toContain('id="field-skyMag-problem">')
    expect(filledIn(answer.body).skyMag).toBe('')
  })
})

describe('the glow of a site', () => {
  const FIELDS = { ...SITE, skyMag: '20' }

  it('is kept by compass points or degrees, without the empty rows', async () => {
    await post('/sites', {
      ...FIELDS,
      'glow.1.fromDeg': 'north-west',
      'glow.1.toDeg': 'N',
      'glow.1.brighterMag': '0,4',
      'glow.3.fromDeg': '94°',
      'glow.3.toDeg': '112.5',
      'glow.3.brighterMag': '1',
    })
    expect(lastSite()?.glow).toEqual([
      { fromDeg: 315, toDeg: 0, brighterMag: 0.4 },
      { fromDeg: 94, toDeg: 112.5, brighterMag: 1 },
    ])
  })

  it.each([
    ['fromDeg', { fromDeg: 'barn', toDeg: 'N', brighterMag: '1' }, 'Write a compass point such as north-west'],
    ['toDeg', { fromDeg: 'N', toDeg: '361', brighterMag: '1' }, 'Write a compass point such as north-west'],
    ['toDeg', { fromDeg: 'N', toDeg: '0', brighterMag: '1' }, 'It must end at another direction than it starts.'],
    ['brighterMag', { fromDeg: 'N', toDeg: 'E', brighterMag: '9' }, 'It must be from 0 to 4.'],
    ['brighterMag', { fromDeg: 'N', toDeg: 'E' }, 'Write a number here.'],
  ])('says beside %s what is wrong with it, and keeps what was typed', async (part, typed, sentence) => {
    const row = Object.fromEntries(Object.entries(typed).map(([name, value]) => [`glow.0.${name}`, value]))
    const answer = await post('/sites', { ...FIELDS, ...row })
    expect(answer.statusCode).toBe(422)
    expect(answer.body).toContain(`id="field-glow-0-${part}-problem">${sentence}`)
    expect(filledIn(answer.body)).toMatchObject({ ...FIELDS, ...row })
  })

  it('gets one more row at the press of a button, up to eight, and all that was typed stays', async () => {
    const typed = { ...FIELDS, 'glow.1.fromDeg': 'barn', 'horizon.4.name': 'oak', glowRows: '2', act: 'more-glow' }
    const { act: _, ...kept } = typed
    const answer = await post('/sites', typed)
    expect(answer.statusCode).toBe(200)
    expect(filledIn(answer.body)).toMatchObject({ ...kept, glowRows: '3', 'glow.2.fromDeg': '' })
    const full = await post('/sites', { ...typed, glowRows: '8' })
    expect(filledIn(full.body).glowRows).toBe('8')
    expect(full.body).not.toContain('value="more-glow"')
  })
})

describe('the search for a town', () => {
  it('says which town was chosen, and no longer lists towns or says that there is none', () => {
    const town = { ...A_SITE, name: 'Oberried', country: 'Germany', region: 'Bavaria' }
    const search = (query: string, towns: readonly Town[], chosen: Town | undefined) =>
      siteFormPage(HOST, {
        id: null,
        state: { values: {}, problems: [] },
        rows: { glows: 2, corners: null },
        drawn: [],
        notes: [],
        search: { query, towns, chosen },
      }).search
    expect(search('ober', [town], town)).toMatchObject({
      towns: [],
      noneText: null,
      chosenText: 'Filled in from Oberried. Give the site its own name, and correct what differs.',
    })
    expect(search('ober', [town], undefined)).toMatchObject({ towns: [{ name: 'Oberried' }], chosenText: null })
    expect(search('nowhere', [], undefined)?.noneText).toContain('No town named “nowhere”')
  })
})

describe('changing a site', () => {
  it('sent back untouched, the form changes nothing, though its skyline lies off the compass points', async () => {
    const before = structuredClone(service.kept.sites[0])
    const page = await get(`/sites/${A_SITE.id}/edit`)
    expect(filledIn(page)).toMatchObject({ 'glow.0.fromDeg': '350°', 'horizon.0.azimuthDeg': 'east', cornerRows: '1' })
    const answer = await post(`/sites/${A_SITE.id}`, filledIn(page))
    expect([answer.statusCode, answer.headers.location]).toEqual([303, '/sites'])
    expect(service.kept.sites[0]).toEqual(before)
  })

  it('keeps a skyline by compass points as it was typed when it was added', async () => {
    await post('/sites', { ...SITE, skyMag: '20', 'horizon.4.altitudeDeg': '12', 'horizon.4.name': 'oak' })
    const before = structuredClone(lastSite())
    const page = await get(`/sites/${before?.id}/edit`)
    expect(filledIn(page)).toMatchObject({ 'horizon.4.altitudeDeg': '12', 'horizon.5.altitudeDeg': '' })
    expect((await post(`/sites/${before?.id}`, { ...filledIn(page), name: 'Oak hill, south' })).statusCode).toBe(303)
    expect(lastSite()).toEqual({ ...before, name: 'Oak hill, south' })
  })

  it('takes one more corner, and says beside it that its direction is none', async () => {
    const fields = filledIn(await get(`/sites/${A_SITE.id}/edit`))
    const more = filledIn((await post(`/sites/${A_SITE.id}`, { ...fields, act: 'more-corners' })).body)
    expect(more).toMatchObject({ ...fields, cornerRows: '2', 'horizon.1.azimuthDeg': '' })
    const corner = { 'horizon.1.altitudeDeg': '9', 'horizon.1.name': 'shed' }
    const wrong = await post(`/sites/${A_SITE.id}`, { ...more, ...corner, 'horizon.1.azimuthDeg': 'there' })
    expect([wrong.statusCode, filledIn(wrong.body)['horizon.1.azimuthDeg']]).toEqual([422, 'there'])
    expect(wrong.body).toContain('id="field-horizon-1-azimuthDeg-problem">Write a compass point')
    await post(`/sites/${A_SITE.id}`, { ...more, ...corner, 'horizon.1.azimuthDeg': '200' })
    expect(service.kept.sites[0]?.horizon).toEqual([
      ...A_SITE.horizon,
      { azimuthDeg: 200, altitudeDeg: 9, name: 'shed' },
    ])
  })

  it('is for the host, and for a site that there is', async () => {
    expect((await post(`/sites/${A_SITE.id}`, SITE, asVisitor)).statusCode).toBe(403)
    expect((await post('/sites/nowhere', SITE)).statusCode).toBe(404)
    expect(await get('/sites/nowhere/edit')).toContain('There is no such site.')
  })
})
