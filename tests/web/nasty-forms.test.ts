import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { readWordTables } from '../../server/web/language.ts'
import { nightFormProblems } from '../../server/web/routes/night-problems.ts'
import { pageWriter } from '../../server/web/views.ts'
import { ASSETS } from '../support/assets.ts'
import { NIGHT_FIELDS, TELESCOPE_FIELDS } from '../support/typed-fields.ts'
import { filledIn } from '../support/typed-form.ts'
import { asHost, formPost, type TestApp, testApp } from '../support/web.ts'

let service: TestApp
beforeAll(async () => {
  const assets = await ASSETS
  service = await testApp({ words: readWordTables(), assets, writePage: pageWriter(assets) })
})
afterAll(() => service.app.close())

const post = (url: string, fields: Readonly<Record<string, string>>) =>
  service.app.inject(asHost(formPost(url, fields)))

const SITE = { name: 'Oak hill', latitudeDeg: '48.2', longitudeDeg: '11.6', heightM: '520', skyMag: '20' }
const FORMS = { '/sites': SITE, '/telescopes': TELESCOPE_FIELDS, '/nights': NIGHT_FIELDS } as const

/** What is typed into which field of which form, and what is said beside it. */
const NASTY: readonly [form: keyof typeof FORMS, field: string, typed: string, sentence: string][] = [
  ['/sites', 'heightM', '1,200', 'Write metres above the sea as a plain number, such as 1200.'],
  ['/sites', 'heightM', '0x10', 'Write metres above the sea as a plain number, such as 1200.'],
  ['/sites', 'heightM', 'Infinity', 'Write metres above the sea as a plain number, such as 1200.'],
  ['/sites', 'heightM', '', 'Write metres above the sea as a plain number, such as 1200.'],
  ['/sites', 'skyMag', '<script>', 'Write a number here.'],
  ['/sites', 'latitudeDeg', '', 'Write degrees such as 47.12'],
  ['/sites', 'name', '', 'It must not be empty.'],
  ['/sites', 'name', 'x'.repeat(500), 'letters at most.'],
  ['/telescopes', 'tubes.0.apertureMm', '1e', 'Write a number here.'],
  ['/telescopes', 'tubes.0.focalLengthMm', '1,200', 'It must be from 100 to 10000.'],
  ['/telescopes', 'eyepieces.0.focalLengthMm', '0x19', 'Write a number here.'],
  ['/telescopes', 'inKitSince', '98', 'It must be from 1850 to 2100.'],
  ['/nights', 'opens', '6:30', 'Write a time of the clock such as 17:30.'],
  ['/nights', 'opens', '', 'Write a time of the clock such as 17:30.'],
  ['/nights', 'date', '17.12.2026', 'Write a date such as 2026-12-17: year, month, day.'],
  ['/nights', 'date', '', 'Write a date such as 2026-12-17: year, month, day.'],
  ['/nights', 'date', '2027-02-30', 'There is no such day.'],
  ['/nights', 'stations.0.telescopeId', '', 'The row needs at least one station: choose a telescope here.'],
  ['/nights', 'title', '   ', 'It must not be empty.'],
]

describe('nonsense in a form', () => {
  it.each(NASTY)('of %s in %s: %j', async (form, field, typed, sentence) => {
    const { statusCode, body } = await post(form, { ...FORMS[form], [field]: typed })
    expect(statusCode).toBe(422)
    const id = `field-${field.replaceAll('.', '-')}`
    const [, beside = ''] = new RegExp(`id="${id}-problem">([^<]*)<`).exec(body) ?? []
    expect(beside).toContain(sentence)
    expect(body).toMatch(new RegExp(`id="${id}"[^>]*aria-describedby="[^"]*${id}-problem"[^>]*aria-invalid="true"`))
    expect(body.split('data-problems')[1]).toContain(`<a href="#${id}">`)
    expect(body.match(/<li><a href="#field/g)).toHaveLength(1)
  })

  it.each(Object.entries(FORMS))('leaves all else in %s as it was typed', async (form, fields) => {
    const { body } = await post(form, { ...fields, name: '', title: '', 'tubes.0.apertureMm': 'wide' })
    const shown = filledIn(body)
    for (const [name, text] of Object.entries(fields)) {
      if (name === 'name' || name === 'title' || name === 'tubes.0.apertureMm') continue
      expect(shown[name], name).toBe(text)
    }
  })

  it('leads to the first field of a telescope without tube and eyepiece', async () => {
    const { body } = await post('/telescopes', {
      name: 'Bare',
      axisLowCm: '70',
      axisHighCm: '90',
      floorDeg: '10',
      ceilingDeg: '80',
    })
    expect(body).toMatch(/id="field-tubes-0-apertureMm-problem">A telescope needs at least one tube\./)
    expect(body).toMatch(/id="field-eyepieces-0-focalLengthMm-problem">A telescope needs at least one eyepiece\./)
  })

  it('is named with its row in the list above, where several rows have the same fields', async () => {
    const second = { 'eyepieces.1.focalLengthMm': 'ten', 'eyepieces.1.apparentFieldDeg': '52' }
    expect((await post('/telescopes', { ...TELESCOPE_FIELDS, ...second })).body).toContain('Eyepiece 2, ')
    const twice = { 'stations.1.kind': 'telescope', 'stations.1.telescopeId': 'telescope-1' }
    expect((await post('/nights', { ...NIGHT_FIELDS, ...twice })).body).toContain(
      'Station 2, Telescope: This telescope already',
    )
  })

  it('is said once of each field, and of a site as a choice', () => {
    const problems = [
      { field: 'siteId', key: 'problem.too-short' },
      { field: 'siteId', key: 'problem.site-unknown' },
      { field: 'title', key: 'problem.too-short' },
    ]
    expect(nightFormProblems(problems)).toEqual(problems.slice(1))
  })

  it('is none where only the way of writing a time differs', async () => {
    const { statusCode } = await post('/nights', { ...NIGHT_FIELDS, opens: '6:30 pm', closes: '20.00' })
    expect(statusCode).toBe(303)
    expect(service.kept.nights.at(-1)).toMatchObject({ opens: '18:30', closes: '20:00' })
  })
})
