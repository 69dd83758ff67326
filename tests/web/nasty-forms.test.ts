import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { FIRST_PLAN } from '../../server/tours/go-plan.ts'
import { nightFormProblems } from '../../server/web/routes/night-problems.ts'
import { type Nasty, refusedTyping } from '../support/nasty-typing.ts'
import { pagedApp } from '../support/paged-app.ts'
import { NIGHT_FIELDS, TELESCOPE_FIELDS } from '../support/typed-fields.ts'
import { filledIn } from '../support/typed-form.ts'
import { asHost, formPost, type TestApp } from '../support/web.ts'

let service: TestApp
beforeAll(async () => {
  service = await pagedApp()
})
afterAll(() => service.app.close())

const post = (url: string, fields: Readonly<Record<string, string>>) =>
  service.app.inject(asHost(formPost(url, fields)))

/** To which fields the list above a form leads. */
const toldOf = (html: string) =>
  [...(html.split('data-problems')[1] ?? '').matchAll(/<li><a href="#field-([^"]*)/g)].map(([, id]) => id)

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

  it('asks for the rest of a class or a tube of which one thing was typed, and keeps that', async () => {
    const visit = await post('/nights', { ...NIGHT_FIELDS, 'settings.schoolClass.endsAt': '12:60' })
    expect(toldOf(visit.body)).toEqual(['settings-schoolClass-startsAt', 'settings-schoolClass-endsAt'])
    const tube = await post('/telescopes', { ...TELESCOPE_FIELDS, 'tubes.1.obstruction': '0.3' })
    expect(toldOf(tube.body)).toEqual(['tubes-1-apertureMm', 'tubes-1-focalLengthMm'])
    expect(filledIn(tube.body)['tubes.1.obstruction']).toBe('0.3')
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

const RULES = ['/sites/site-1/date-rules', '/sites/site-1/date-rules'] as const
const LIMITS = ['/nights/night-1/go/limits', '/nights/night-1/go/limits'] as const
const PLAN = ['/nights/night-1/go', '/nights/night-1/go/plan'] as const
const VALUES = ['/nights/night-1/go', '/nights/night-1/go/values'] as const
const LISTS = ['/nights/night-1/checklists/edit', '/nights/night-1/checklists'] as const
const REPORT = ['/nights/night-1/report', '/nights/night-1/report'] as const
const VISIT = ['/nights/night-1/class', '/nights/night-1/class'] as const
const NOTES = ['/sites/site-1/notes', '/sites/site-1/notes'] as const
const OWN = ['/extras/new', '/extras'] as const
const CARRY = ['/nights/import', '/nights/import'] as const
const GROUP = ['/nights/night-1/papers', '/nights/night-1/papers/group'] as const
const DECIDE = ['/nights/night-1/go', '/nights/night-1/go/decide'] as const
const RULE_FIELDS = {
  afterSunsetMin: '30',
  opensFrom: '18:00',
  bedtime: '21:30',
  darkHours: '1',
  moonDays: '2',
  fullDays: '2',
  weeksApart: '2',
  backUpDays: '14',
}
const CLOCK = 'Write a time of the clock such as 17:30.'
const FIRST_LINE = 'Mount, weights, leg screws, diagonal and finder of each telescope in one place'
const DAMAGED = 'The file is damaged: it breaks off or was changed.'
const ROW = 'Sustained wind (km/h), Doubtful from'

const EVERYWHERE: readonly (readonly [
  ...form: Nasty['form'],
  field: string,
  typed: string,
  label: string,
  sentence: string,
])[] = [
  [...RULES, 'opensFrom', '12:60', 'But not before', CLOCK],
  [...RULES, 'bedtime', '', 'Bedtime', CLOCK],
  [...RULES, 'holiday', '2027-02-29', 'Holidays', 'Line 1 names a day that no calendar has: 2027-02-29.'],
  [...LIMITS, 'wind.doubtful', '', ROW, 'Write a number here.'],
  [...LIMITS, 'wind.doubtful', '40', ROW, 'A value gets doubtful before it is off'],
  [...LIMITS, 'temperature.off', 'NaN', 'Lowest temperature (°C), Off at this or colder', 'Write a number here.'],
  [...PLAN, 'nextWordAt', '25:00', 'Next word at', CLOCK],
  [...DECIDE, 'why', 'Rain later', 'Why', 'Press the button that says how the night stands.'],
  [...VALUES, 'cloud', '-3', 'Cloud (% of the sky)', 'It must be from 0 to 100.'],
  [...LISTS, 'items.0.offsetMin', '-30', `${FIRST_LINE}, Minutes`, 'It must be from 0 to 2880.'],
  [...REPORT, 'ranFrom', '47° 7′', 'It began at', CLOCK],
  [...REPORT, 'adults', '=1+1', 'Adults who came', 'Write a whole number here.'],
  [...VISIT, 'adultsPerGroup', '99999999999999999999', 'Adults with each group', 'It must be from 1 to 10.'],
  [...NOTES, 'parking', 'x'.repeat(5_000), 'Parking', 'It is too long: 200 letters at most.'],
  [...OWN, 'magnitude', '<script>', 'Magnitude V', 'Write a number here.'],
  [...OWN, 'name', '🔭', 'Name', 'A name needs at least one letter or digit.'],
  [...CARRY, 'file', '{', 'What stands in the file', DAMAGED],
  [...GROUP, 'group', 'x'.repeat(5_000), 'Printed on the handout', 'It is too long: 140 letters at most.'],
]

describe('nonsense in any other form', () => {
  it.each(EVERYWHERE)('%s, %s: %s', async (page, action, field, typed, label, sentence) => {
    await refusedTyping(service, { form: [page, action], field, typed, label, sentence })
  })

  it('is told in the order of the fields, and in the reader’s language', async () => {
    const { body } = await post('/sites?lang=de', { ...SITE, latitudeDeg: 'x', name: '', skyMag: '99' })
    expect(body).toMatch(/<title>Fehler: Standort hinzufügen</)
    expect(toldOf(body)).toEqual(['name', 'latitudeDeg', 'skyMag'])
  })

  it('of several lines is told line by line at the field, too', async () => {
    const holiday = '2027-12-24 open\nsoon\nlater'
    const { body } = await post(RULES[0], { ...RULE_FIELDS, holiday })
    expect(body).toMatch(/id="field-holiday-problem">Line 2 \(“soon”\)[^<]* Line 3 \(“later”\)/)
  })

  it.each(['/sites/new', '/nights/night-1/wishes', '/nights/night-1/objects', '/objects'])(
    'too long for the search of %s finds nothing, and the page stays',
    async (page) => {
      const { statusCode, body } = await service.app.inject(asHost({ url: `${page}?q=${'x'.repeat(500)}` }))
      expect([statusCode, body.includes(`value="${'x'.repeat(80)}"`)]).toEqual([200, true])
    },
  )

  it('leaves fields empty that were emptied, though something else is kept of them', async () => {
    const limits = await refusedTyping(
      service,
      {
        form: LIMITS,
        field: 'gust.off',
        typed: 'x',
        label: 'Gusts (km/h), Off from',
        sentence: 'Write a number here.',
      },
      { 'air.off': '' },
    )
    expect(limits).toContain('id="field-air-off-problem"')
    const plan = { form: PLAN, field: 'decidesAt', typed: 'soon', label: 'Decide by', sentence: CLOCK }
    service.desk.go.plan('night-1', { ...FIRST_PLAN, nextWordAt: '17:30' })
    await refusedTyping(service, plan, { nextWordAt: '' })
  })
})
