import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { DEFAULT_SETTINGS } from '../../server/tours/night.ts'
import { A_NIGHT, NIGHT_DRAFT } from '../support/field-data.ts'
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
  date: '2027-03-01',
  opens: '19:00',
  closes: '21:00',
  'stations.0.kind': 'telescope',
  'stations.0.telescopeId': 'telescope-1',
}
const lastKept = () => service.kept.nights.at(-1)
const editForm = async () => {
  const { body } = await service.app.inject(asHost({ url: `/nights/${lastKept()?.id}/edit` }))
  return { body, fields: filledIn(body) }
}

describe('who looks, on the form of a night', () => {
  it('is a mixed public in the dark when nothing is said', async () => {
    expect((await post('/nights', NIGHT)).statusCode).toBe(303)
    const { settings } = lastKept() ?? {}
    expect(settings?.streetLight ?? false).toBe(false)
    expect(settings?.visitorYears ?? null).toBeNull()
    const { fields } = await editForm()
    expect(fields['settings.visitorYears']).toBe('')
    expect(fields['settings.streetLight']).toBeUndefined()
  })

  it('is kept as typed and comes back to be changed', async () => {
    await post('/nights', { ...NIGHT, 'settings.streetLight': 'true', 'settings.visitorYears': '70' })
    expect(lastKept()?.settings).toMatchObject({ streetLight: true, visitorYears: 70 })
    const { fields } = await editForm()
    expect(fields).toMatchObject({ 'settings.streetLight': 'true', 'settings.visitorYears': '70' })
  })

  it('stays as it was kept when the form is sent back unchanged, so that its programme still holds', async () => {
    service.kept.nights.push({ ...A_NIGHT, id: 'kept-before', settings: { ...DEFAULT_SETTINGS } })
    const { fields } = await editForm()
    expect((await post('/nights/kept-before', fields)).statusCode).toBe(303)
    expect(lastKept()?.id).toBe('kept-before')
    expect(lastKept()?.settings).toEqual(DEFAULT_SETTINGS)
    const told = { ...fields, 'settings.streetLight': 'true', 'settings.visitorYears': '70' }
    await post('/nights/kept-before', told)
    expect(lastKept()?.settings).toEqual({ ...DEFAULT_SETTINGS, streetLight: true, visitorYears: 70 })
    await post('/nights/kept-before', fields)
    expect(Object.keys(lastKept()?.settings ?? {})).toEqual(Object.keys(DEFAULT_SETTINGS))
  })

  it('says under the age that of the young nothing but the pupil is known', async () => {
    const { body } = await editForm()
    expect(body).toMatch(/Nothing is published about how well children see at an eyepiece/)
  })

  it('is refused beside the age when that is none', async () => {
    const young = await post('/nights', { ...NIGHT, 'settings.visitorYears': '3' })
    expect(young.statusCode).toBe(422)
    expect(young.body).toContain('It must be from 5 to 90.')
    const typed = await post('/nights', { ...NIGHT, 'settings.visitorYears': 'old' })
    expect(typed.body).toMatch(/id="field-settings-visitorYears-problem">Write a number here\./)
  })
})

describe('a night as JSON', () => {
  it('needs nothing of who looks, and knows them when said', async () => {
    const { streetLight: _lamp, visitorYears: _years, ...settings } = { ...NIGHT_DRAFT.settings }
    const payload = { ...NIGHT_DRAFT, settings }
    const add = (changes: object) =>
      service.app.inject(
        asHost({ method: 'POST', url: '/api/nights', payload: { ...payload, settings: { ...settings, ...changes } } }),
      )
    const old = await add({})
    expect(old.statusCode).toBe(201)
    const told = await add({ streetLight: true, visitorYears: 12 })
    expect(told.json().settings).toMatchObject({ streetLight: true, visitorYears: 12 })
    expect((await add({ visitorYears: 'twelve' })).json().error.problems).toMatchObject([
      { field: 'settings.visitorYears', code: 'problem.type' },
    ])
  })
})

describe('a class that has the row to itself', () => {
  it('is kept as typed, comes back to be changed, and is none when no time is given', async () => {
    const typed = {
      'settings.schoolClass.startsAt': '19:00',
      'settings.schoolClass.endsAt': '20:00',
      'settings.schoolClass.groups': '4',
    }
    expect((await post('/nights', { ...NIGHT, ...typed })).statusCode).toBe(303)
    expect(lastKept()?.settings.schoolClass).toEqual({ startsAt: '19:00', endsAt: '20:00', groups: 4 })
    const { fields } = await editForm()
    expect(fields).toMatchObject(typed)
    await post('/nights', { ...NIGHT, 'settings.schoolClass.groups': '4' })
    expect(lastKept()?.settings.schoolClass).toBeUndefined()
  })

  it('is refused beside the time that is none', async () => {
    const { statusCode, body } = await post('/nights', { ...NIGHT, 'settings.schoolClass.startsAt': 'seven' })
    expect(statusCode).toBe(422)
    expect(body).toContain('id="field-settings-schoolClass-startsAt-problem"')
  })
})
