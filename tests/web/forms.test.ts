import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { atLabel } from '../../server/web/routes/field-mark.ts'
import { halfHoursOf } from '../../server/web/routes/night-draft.ts'
import { PIN } from '../support/fake-desk.ts'
import { A_NIGHT } from '../support/field-data.ts'
import { ENGLISH } from '../support/page-data.ts'
import { pagedApp } from '../support/paged-app.ts'
import { NIGHT_FIELDS } from '../support/typed-fields.ts'
import { asHost, asVisitor, formPost, type TestApp } from '../support/web.ts'

let service: TestApp
beforeAll(async () => {
  service = await pagedApp()
})
afterAll(() => service.app.close())

const post = (url: string, fields: Record<string, string>, as = asHost) => service.app.inject(as(formPost(url, fields)))
const get = (url: string, as = asHost) => service.app.inject(as({ method: 'GET', url }))

const SITE = {
  name: 'Oak hill',
  latitudeDeg: '48,2',
  longitudeDeg: '11.6',
  heightM: '520',
  zone: 'Europe/Berlin',
  skyMag: '20',
}

describe('the form of a site', () => {
  it('takes a decimal comma, keeps the site, and goes on to the night', async () => {
    const answer = await post('/sites', { ...SITE, 'horizon.4.altitudeDeg': '12', 'horizon.4.name': 'oak' })
    expect(answer.statusCode).toBe(303)
    const kept = service.kept.sites.at(-1)
    expect(answer.headers.location).toBe(`/nights/new?siteId=${kept?.id}`)
    expect(kept?.latitudeDeg).toBe(48.2)
    expect(kept?.horizon).toHaveLength(16)
    expect(kept?.horizon[4]).toEqual({ azimuthDeg: 90, altitudeDeg: 12, name: 'oak' })
    expect(kept?.horizon[5]).toEqual({ azimuthDeg: 112.5, altitudeDeg: 0, name: '' })
  })

  it('says beside the field what is wrong, and keeps what was typed', async () => {
    const answer = await post('/sites', { ...SITE, latitudeDeg: '148', zone: 'Mars/Base' })
    expect(answer.statusCode).toBe(422)
    expect(answer.body).toContain('value="148"')
    expect(answer.body).toContain('value="Oak hill"')
    expect(answer.body).toMatch(/id="field-latitudeDeg-problem">Latitude and longitude look swapped\./)
    expect(answer.body).toMatch(/aria-invalid="true"/)
  })

  it('asks for the height of what was only named', async () => {
    const answer = await post('/sites', { ...SITE, 'horizon.2.name': 'barn' })
    expect(answer.body).toContain('id="field-horizon-2-altitudeDeg-problem"')
  })

  it('is closed to visitors', async () => {
    expect((await post('/sites', SITE, asVisitor)).statusCode).toBe(403)
    expect((await get('/sites/new', asVisitor)).statusCode).toBe(403)
  })
})

describe('the form of a telescope', () => {
  const TELESCOPE = {
    name: 'New one',
    mount: 'altaz-hand',
    'tubes.0.apertureMm': '150',
    'tubes.0.focalLengthMm': '750',
    'tubes.0.design': 'reflector',
    'tubes.1.design': 'refractor',
    'eyepieces.2.focalLengthMm': '25',
    'eyepieces.2.apparentFieldDeg': '52',
    axisLowCm: '70',
    axisHighCm: '90',
    chairReach: 'no',
    floorDeg: '10',
    ceilingDeg: '80',
  }

  it('leaves out an empty second tube and empty rows of eyepieces', async () => {
    const answer = await post('/telescopes', TELESCOPE)
    expect([answer.statusCode, answer.headers.location]).toEqual([303, '/telescopes'])
    expect(service.kept.telescopes.at(-1)?.name).toBe('New one')
  })

  it('has its own words for an eyepiece of 0 mm', async () => {
    const answer = await post('/telescopes', { ...TELESCOPE, 'eyepieces.2.focalLengthMm': '0' })
    expect(answer.statusCode).toBe(422)
    expect(answer.body).toMatch(/id="field-eyepieces-0-focalLengthMm-problem">An eyepiece of 0\u00a0mm does not exist/)
  })

  it('shows one more row of eyepieces and keeps nothing yet', async () => {
    const before = service.kept.telescopes.length
    const answer = await post('/telescopes', { ...TELESCOPE, act: 'more', eyepieceRows: '3' })
    expect(answer.statusCode).toBe(200)
    expect(answer.body).toContain('name="eyepieces.3.focalLengthMm"')
    expect(answer.body).toMatch(/name="eyepieces.2.focalLengthMm"[^>]*value="25"/)
    expect(service.kept.telescopes).toHaveLength(before)
  })
})

describe('the form of a night', () => {
  it('keeps the night and names a nameless station after its telescope', async () => {
    const answer = await post('/nights', NIGHT_FIELDS)
    expect(answer.statusCode).toBe(303)
    expect(service.kept.nights.at(-1)).toMatchObject({
      title: 'Stars for all',
      visitors: [{ startsAt: '18:30' }, {}, {}],
    })
  })

  it('fits the table of visitors to new hours without losing people', async () => {
    const rows = { 'visitors.0.startsAt': '18:30', 'visitors.0.children': '24' }
    const answer = await post('/nights', { ...NIGHT_FIELDS, ...rows, opens: '18:00', act: 'hours' })
    expect(answer.statusCode).toBe(200)
    expect(answer.body).toMatch(/name="visitors.0.startsAt" value="18:00"/)
    expect(answer.body).toMatch(/name="visitors.1.children"[^>]*value="24"/)
  })

  it('refuses people outside the hours by name instead of dropping them', async () => {
    const rows = { 'visitors.0.startsAt': '16:00', 'visitors.0.adults': '9' }
    const answer = await post('/nights', { ...NIGHT_FIELDS, ...rows })
    expect(answer.statusCode).toBe(422)
    expect(answer.body).toContain('16:00 is outside the public hours.')
  })

  it('says that a night in the past is over, and the date with its month as a word', async () => {
    const answer = await post('/nights', { ...NIGHT_FIELDS, date: '2025-03-04' })
    expect(answer.statusCode).toBe(422)
    expect(answer.body).toContain('This night is already over.')
    expect(answer.body).toContain('4 March 2025')
  })

  it('counts half hours over midnight', () => {
    expect(halfHoursOf({ opens: '23:00', closes: '00:45' }, [])).toEqual(['23:00', '23:30', '00:00', '00:30'])
    for (const values of [
      { opens: '18:00', closes: '18:00' },
      { closes: '18:00' },
      { opens: 'six', closes: '18:00' },
    ]) {
      expect(halfHoursOf(values, [])).toEqual([])
    }
    expect(halfHoursOf({ opens: '18:00', closes: '18:30', date: '2027-02-30', siteId: 'nowhere' }, [])).toEqual([
      '18:00',
    ])
  })
})

describe('marks by form', () => {
  const url = `/field/${A_NIGHT.id}/marks`
  const mark = { key: 'a-key-of-the-page', kind: 'shown', stationId: 'station-1', targetKey: 'm13' }

  it('keeps a mark once, however often the form is sent', async () => {
    for (let time = 0; time < 3; time++) {
      const answer = await post(url, mark)
      expect([answer.statusCode, answer.headers.location]).toEqual([303, `/field/${A_NIGHT.id}/station-1`])
    }
    expect(service.kept.marks.filter(({ key }) => key === mark.key)).toHaveLength(1)
  })

  it('takes no mark from a visitor and none that no page of ours has made', async () => {
    expect((await post(url, { ...mark, key: 'another-key' }, asVisitor)).statusCode).toBe(403)
    expect((await post(url, { ...mark, key: 'another-key', kind: 'launch' })).statusCode).toBe(422)
    expect((await post(url, { ...mark, key: 'short' })).statusCode).toBe(422)
    expect((await post('/field/nowhere/marks', { ...mark, key: 'another-key' })).statusCode).toBe(404)
  })

  it('names a number that cannot be kept as the page does, and leaves what nobody typed without a name', async () => {
    const named = (field: string) => atLabel(ENGLISH)({ field, key: 'problem.type-integer' }).field
    expect(['payload.people', 'payload.adults', 'payload.children'].map(named)).toEqual([
      'People to time',
      'Adults',
      'Children',
    ])
    expect(['key', 'payload.targetKey'].map(named)).toEqual(['', ''])
    expect((await post(url, { ...mark, key: 'short' })).body).toContain('<li>This is not written as it should be.</li>')
  })

  it('remembers the day look on the field pages only', async () => {
    const lamp = await get(`/field/${A_NIGHT.id}`)
    expect(lamp.body).toContain('data-look="lamp"')
    const day = await get(`/field/${A_NIGHT.id}?look=day`)
    expect(day.body).toContain('data-look="day"')
    expect(String(day.headers['set-cookie'])).toMatch(/look=day;.*Path=\/field/)
  })
})

describe('pages of a night', () => {
  it('builds a programme at the press of a button, for the host alone', async () => {
    const url = `/nights/${A_NIGHT.id}/programme`
    const built = await post(url, {})
    expect([built.statusCode, built.headers.location]).toEqual([303, url])
    expect(service.kept.tours).toHaveLength(2)
    expect((await post(url, {}, asVisitor)).statusCode).toBe(403)
  })

  it('shows the check of an asked moment and refuses nonsense', async () => {
    const url = `/nights/${A_NIGHT.id}/check`
    expect((await get(`${url}?at=2026-11-20T18:00:00Z`, asVisitor)).body).toContain('19:00')
    expect((await get(`${url}?at=later`, asVisitor)).statusCode).toBe(422)
  })

  it('prints on both papers', async () => {
    for (const name of ['run-sheet', 'sheets', 'cards']) {
      for (const paper of ['a4', 'letter']) {
        const answer = await get(`/nights/${A_NIGHT.id}/print/${name}?paper=${paper}`, asVisitor)
        expect([name, paper, answer.statusCode]).toEqual([name, paper, 200])
      }
      expect((await get(`/nights/${A_NIGHT.id}/print/${name}?paper=parchment`, asVisitor)).statusCode).toBe(422)
    }
  })
})

/** Last, because signing in anew ends the session of the other tests. */
describe('sign-in', () => {
  it('goes back to where the host wanted to be', async () => {
    const answer = await post('/sign-in', { pin: PIN, back: '/nights/new' })
    expect([answer.statusCode, answer.headers.location]).toEqual([303, '/nights/new'])
  })

  it('says that a PIN is wrong, and never shows it again', async () => {
    const answer = await post('/sign-in', { pin: '000111', back: '//elsewhere.example' })
    expect(answer.statusCode).toBe(422)
    expect(answer.body).toContain('This is not the PIN.')
    expect(answer.body).not.toContain('000111')
    expect(answer.body).not.toContain('elsewhere')
  })
})
