import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { A_SITE, A_TELESCOPE } from '../support/field-data.ts'
import { ENGLISH, GERMAN } from '../support/page-data.ts'
import { pagedApp } from '../support/paged-app.ts'
import { TELESCOPE_FIELDS } from '../support/typed-fields.ts'
import { filledIn } from '../support/typed-form.ts'
import { asHost, asVisitor, formPost, type TestApp } from '../support/web.ts'

let service: TestApp
beforeAll(async () => {
  service = await pagedApp()
})
afterAll(() => service.app.close())

const post = (url: string, fields: Record<string, string>, as = asHost) => service.app.inject(as(formPost(url, fields)))
const get = async (url: string, as = asHost) => (await service.app.inject(as({ method: 'GET', url }))).body

const lastTelescope = () => service.kept.telescopes.at(-1)

/** A telescope without the ids, which the desk of the tests makes anew. */
const withoutIds = (thing: unknown) =>
  JSON.parse(JSON.stringify(thing, (key, value) => (key === 'id' ? undefined : value)))

describe('a Barlow or reducer in the form of a telescope', () => {
  it('is kept, and without a name gets one of its factor', async () => {
    await post('/telescopes', {
      ...TELESCOPE_FIELDS,
      'factors.0.factor': '2',
      'factors.1.factor': '0,63',
      'factors.2.factor': '3',
      'factors.2.name': 'the black one',
    })
    expect(lastTelescope()?.factors.map(({ name, factor }) => [name, factor])).toEqual([
      ['2x Barlow', 2],
      ['0.63x reducer', 0.63],
      ['the black one', 3],
    ])
  })

  it.each([
    [{ factor: '6' }, 'factor', 'It must be from 0.3 to 5.'],
    [{ name: 'nameless number' }, 'factor', 'Write a number here.'],
    [{ factor: '2', name: 'x'.repeat(41) }, 'name', 'It is too long: 40 letters at most.'],
  ])('with %j is refused beside its field', async (typed, part, sentence) => {
    const row = Object.fromEntries(Object.entries(typed).map(([name, value]) => [`factors.0.${name}`, value]))
    const answer = await post('/telescopes', { ...TELESCOPE_FIELDS, ...row })
    expect(answer.statusCode).toBe(422)
    expect(answer.body).toContain(`id="field-factors-0-${part}-problem">${sentence}`)
    expect(filledIn(answer.body)).toMatchObject({ ...TELESCOPE_FIELDS, ...row })
  })

  it('has one more row up to three, and all that was typed stays', async () => {
    const typed = { ...TELESCOPE_FIELDS, 'factors.0.factor': 'two', factorRows: '1' }
    const answer = await post('/telescopes', { ...typed, act: 'more-factors' })
    expect(filledIn(answer.body)).toMatchObject({ ...typed, factorRows: '2', 'factors.1.factor': '' })
    const full = await post('/telescopes', { ...typed, factorRows: '3', act: 'more-factors' })
    expect(full.body).not.toContain('value="more-factors"')
  })

  it('loses no row of a full form to an error', async () => {
    const rows = Object.fromEntries(
      Array.from({ length: 12 }, (_, i) => [
        [`eyepieces.${i}.focalLengthMm`, String(i + 4)],
        [`eyepieces.${i}.apparentFieldDeg`, '50'],
      ]).flat(),
    )
    const full = filledIn(
      (await post('/telescopes', { ...TELESCOPE_FIELDS, ...rows, eyepieceRows: '11', act: 'more' })).body,
    )
    const wrong = filledIn((await post('/telescopes', { ...full, name: '' })).body)
    expect(wrong).toMatchObject({ ...rows, eyepieceRows: '12' })
  })
})

describe('the finder, the years and what it shows in the form of a telescope', () => {
  const KEPT = {
    'finder.kind': 'right-angle',
    'finder.fieldDeg': '6,5',
    'finder.powerX': '',
    inKitSince: '1998',
    note: 'Sticks',
  }

  it('keeps them, and leaves out what is blank', async () => {
    await post('/telescopes', { ...TELESCOPE_FIELDS, ...KEPT })
    expect(lastTelescope()).toMatchObject({
      finder: { kind: 'right-angle', fieldDeg: 6.5, powerX: null },
      inKitSince: 1998,
      note: 'Sticks',
    })
    await post('/telescopes', { ...TELESCOPE_FIELDS, 'finder.kind': '', note: ' ' })
    expect(Object.keys(lastTelescope() ?? {})).not.toEqual(expect.arrayContaining(['note']))
    expect(lastTelescope()?.finder).toBeUndefined()
  })

  it('keeps the note of what was assumed as its code, and shows it in the language of each reader', async () => {
    await post('/telescopes', { ...TELESCOPE_FIELDS, note: ENGLISH.say('start.kit-note') })
    const { id = '', note } = lastTelescope() ?? {}
    expect(note).toBe('start.kit-note')
    const german = GERMAN.say('start.kit-note')
    expect(await get(`/telescopes/${id}`, asVisitor)).toContain(ENGLISH.say('start.kit-note'))
    expect(await get(`/telescopes/${id}?lang=de`, asVisitor)).toContain(german)
    const form = filledIn(await get(`/telescopes/${id}/edit?lang=de`))
    expect(form.note).toBe(german)
    await post(`/telescopes/${id}?lang=de`, form)
    expect(lastTelescope()?.note).toBe('start.kit-note')
    await post(`/telescopes/${id}?lang=de`, { ...form, note: 'Geprüft' })
    expect(lastTelescope()?.note).toBe('Geprüft')
  })

  it('shows figures with the mark of the reader’s language, and takes them back so', async () => {
    await post('/telescopes', { ...TELESCOPE_FIELDS, ...KEPT })
    const { id = '' } = lastTelescope() ?? {}
    expect(filledIn(await get(`/telescopes/${id}/edit`))['finder.fieldDeg']).toBe('6.5')
    const form = filledIn(await get(`/telescopes/${id}/edit?lang=de`))
    expect(form['finder.fieldDeg']).toBe('6,5')
    await post(`/telescopes/${id}?lang=de`, form)
    expect(lastTelescope()?.finder?.fieldDeg).toBe(6.5)
  })

  it('says beside the field what is wrong', async () => {
    const { body } = await post('/telescopes', {
      ...TELESCOPE_FIELDS,
      ...KEPT,
      'finder.fieldDeg': '60',
      inKitSince: 'long ago',
    })
    expect(body).toContain('id="field-finder-fieldDeg-problem">It must be from 0.5 to 20.')
    expect(body).toContain('id="field-inKitSince-problem"')
    expect(filledIn(body)).toMatchObject({ note: 'Sticks', inKitSince: 'long ago' })
  })

  it('shows what it shows as it is typed, under the chosen sky, and saves nothing', async () => {
    const before = service.kept.telescopes.length
    const dark = await post('/telescopes', { ...TELESCOPE_FIELDS, ...KEPT, act: 'shows', sky: '2' })
    expect(dark.body).toMatch(/30\u00a0times<\/td>/)
    expect(dark.body).toContain('class 2')
    expect(filledIn(dark.body)).toMatchObject({ ...TELESCOPE_FIELDS, note: 'Sticks', sky: '2' })
    const town = await post('/telescopes', { ...TELESCOPE_FIELDS, name: '', act: 'shows', sky: '8' })
    const star = ({ body }: { body: string }) => Number(/star of magnitude ([\d.]+)/.exec(body)?.[1])
    expect(star(dark)).toBeGreaterThan(star(town) + 1)
    const wrong = await post('/telescopes', { ...TELESCOPE_FIELDS, 'tubes.0.apertureMm': '', act: 'shows' })
    expect([wrong.statusCode, wrong.body.includes('id="shows"')]).toEqual([422, false])
    expect(service.kept.telescopes).toHaveLength(before)
  })
})

describe('the page of a telescope', () => {
  const url = `/telescopes/${A_TELESCOPE.id}`

  it('shows a visitor what it shows, and leaves putting away to the host', async () => {
    const page = await get(url, asVisitor)
    expect(page).toContain('48\u00a0times')
    expect(page).toContain('1.08 degrees, 2.1 full Moons')
    expect(page).not.toContain('put-away')
    expect((await post(`${url}/put-away`, {}, asVisitor)).statusCode).toBe(403)
    expect(await get('/telescopes/nowhere', asVisitor)).toContain('404')
  })

  it('puts it away and takes it out again', async () => {
    const away = await post(`${url}/put-away`, {})
    expect([away.statusCode, away.headers.location]).toEqual([303, url])
    expect(await get(url)).toContain(`action="${url}/take-out"`)
    expect(await get('/telescopes')).toContain('<h2>Put away</h2>')
    expect(await get('/nights/new')).not.toContain(`<option value="${A_TELESCOPE.id}"`)
    expect(await get('/nights/night-1/edit')).toContain(`<option value="${A_TELESCOPE.id}" selected`)
    await post(`${url}/take-out`, {})
    expect(await get('/nights/new')).toContain(`<option value="${A_TELESCOPE.id}"`)
  })
})

describe('changing a telescope', () => {
  it('sent back untouched, the form changes nothing that it does not ask for', async () => {
    const stop = A_TELESCOPE.eyepieces.map((eyepiece) => ({ ...eyepiece, fieldStopMm: 22.5 }))
    const [tube] = A_TELESCOPE.tubes
    if (!tube) throw new Error('The telescope of the tests has a tube')
    const factors = [{ id: 'factor-1', name: '2x Barlow', factor: 2 }]
    const tubes = [{ ...tube, transmission: 0.77, hasDiagonal: true }]
    service.kept.telescopes[0] = { ...A_TELESCOPE, tubes, eyepieces: stop, factors }
    const page = await get(`/telescopes/${A_TELESCOPE.id}/edit`)
    expect(filledIn(page)).toMatchObject({ 'factors.0.factor': '2', 'factors.0.name': '', mount: 'altaz-hand' })
    const answer = await post(`/telescopes/${A_TELESCOPE.id}`, filledIn(page))
    expect([answer.statusCode, answer.headers.location]).toEqual([303, '/telescopes'])
    expect(withoutIds(service.kept.telescopes[0])).toEqual(
      withoutIds({ ...A_TELESCOPE, tubes, eyepieces: stop, factors }),
    )
  })

  it('says what is wrong beside the field and keeps what was typed, the telescope as it was', async () => {
    const before = structuredClone(service.kept.telescopes[0])
    const fields = { ...filledIn(await get(`/telescopes/${A_TELESCOPE.id}/edit`)), axisLowCm: '', axisHighCm: '900' }
    const answer = await post(`/telescopes/${A_TELESCOPE.id}`, fields)
    expect(answer.statusCode).toBe(422)
    expect(answer.body).toContain('id="field-axisHighCm-problem">It must be from 20 to 250.')
    expect(filledIn(answer.body)).toMatchObject({ axisLowCm: '', axisHighCm: '900', name: A_TELESCOPE.name })
    expect(service.kept.telescopes[0]).toEqual(before)
    expect((await post('/telescopes/nowhere', TELESCOPE_FIELDS)).statusCode).toBe(404)
    expect((await post(`/telescopes/${A_TELESCOPE.id}`, fields, asVisitor)).statusCode).toBe(403)
  })
})

describe('the lists of sites and telescopes', () => {
  it('say in which nights each is used, and lead the host alone to the change', async () => {
    service.kept.sites.push({ ...A_SITE, id: 'site-2', name: 'Never used' })
    for (const [url, id] of [
      ['/sites', A_SITE.id],
      ['/telescopes', A_TELESCOPE.id],
    ]) {
      const page = await get(`${url}`)
      expect(page).toContain('Used in 1 night:')
      expect(page).toContain('<a href="/nights/night-1">Moon over the meadow, Friday 20 November 2026</a>')
      expect(page).toContain(`href="${url}/${id}/edit"`)
      expect(page).toContain('No night uses it yet.')
      expect(await get(`${url}`, asVisitor)).not.toContain('/edit"')
    }
    expect(await get('/sites')).toContain('Sky overhead 20.0 magnitudes per square arcsecond, about class 5')
    expect(await get('/telescopes')).toContain(
      'Barlow lenses and reducers: 2x Barlow, 0.63x reducer, and the black one',
    )
  })
})
