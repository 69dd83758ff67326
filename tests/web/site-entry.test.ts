import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { pagedApp } from '../support/paged-app.ts'
import { filledIn } from '../support/typed-form.ts'
import { beside, type Fields, postSite, refusedSite } from '../support/typed-site.ts'
import { asHost, asVisitor, type TestApp } from '../support/web.ts'

let service: TestApp
beforeAll(async () => {
  service = await pagedApp()
})
afterAll(() => service.app.close())

const post = (fields: Fields, url?: string) => postSite(service.app, fields, url)
const refused = (fields: Fields) => refusedSite(service, fields)
const lastSite = () => service.kept.sites.at(-1)

describe('the place of a site', () => {
  it('may be written in degrees and minutes, and is said so after it was kept', async () => {
    const answer = await post({ latitudeDeg: "47° 7.4' N", longitudeDeg: '8 32 30 E' })
    expect(answer.statusCode).toBe(303)
    expect(lastSite()).toMatchObject({ latitudeDeg: 47.1233333, longitudeDeg: 8.5416667, zone: 'Europe/Zurich' })
    const list = await service.app.inject(asVisitor({ url: '/sites' }))
    expect(list.body).toContain('47° 7.4′ north, 8° 32.5′ east')
  })

  it('may be pasted as a whole into one field', async () => {
    await post({ latitudeDeg: '33.9 S, 151.2 E', longitudeDeg: '' })
    expect(lastSite()).toMatchObject({ latitudeDeg: -33.9, longitudeDeg: 151.2, zone: 'Australia/Sydney' })
    const list = await service.app.inject(asVisitor({ url: '/sites' }))
    expect(list.body).toContain('33° 54.0′ south, 151° 12.0′ east')
  })

  it.each([
    ['latitudeDeg', { latitudeDeg: '11.6 E', longitudeDeg: '48.2 N' }, 'look swapped'],
    ['latitudeDeg', { latitudeDeg: '151.2', longitudeDeg: '-33.9' }, 'look swapped'],
    ['latitudeDeg', { latitudeDeg: '-48.2 S', longitudeDeg: '11.6' }, 'The sign and the letter contradict each other.'],
    ['longitudeDeg', { longitudeDeg: "11° 61' E" }, 'Minutes go up to 59'],
    ['longitudeDeg', { longitudeDeg: '181' }, 'Longitude ends at 180 degrees'],
    ['latitudeDeg', { latitudeDeg: 'by the oak' }, 'Write degrees such as 47.12'],
    ['longitudeDeg', { longitudeDeg: '' }, 'Write degrees such as 47.12'],
  ])('is told beside %s when it cannot be so, and stays as typed: %o', async (field, fields: Fields, sentence) => {
    expect(beside(await refused(fields), field)).toContain(sentence)
  })

  it('is told as swapped when only then it fits the zone, or the town it was filled in from', async () => {
    const fields = { latitudeDeg: '8.54', longitudeDeg: '47.37' }
    const byZone = await refused({ ...fields, zone: 'Europe/Zurich' })
    expect(beside(byZone, 'latitudeDeg')).toMatch(
      /^Latitude and longitude look swapped: changed round they fit Europe\/Zurich, .* those of Africa\/\w+\.$/,
    )
    const town = { 'town.name': 'Zürich', 'town.latitudeDeg': '47.36667', 'town.longitudeDeg': '8.55' }
    const byTown = await refused({ ...fields, ...town })
    expect(beside(byTown, 'latitudeDeg')).toContain('only changed round do they lie at Zürich.')
    expect((await post({ ...town, latitudeDeg: '47.1', longitudeDeg: '8.9' })).statusCode).toBe(303)
  })

  it('is told as on the wrong side when only the other one fits the zone', async () => {
    const body = await refused({ latitudeDeg: '39.7', longitudeDeg: '105', zone: 'America/Denver' })
    expect(beside(body, 'longitudeDeg')).toBe(
      'East and west look mixed up: with the other one the place fits America/Denver, as it stands the clocks are those of Asia/Shanghai.',
    )
  })

  it('has every other problem told in the same answer', async () => {
    const body = await refused({
      zone: 'Middle/Earth',
      longitudeDeg: '181',
      heightM: 'high',
      'horizon.2.altitudeDeg': 'tall',
    })
    expect(beside(body, 'longitudeDeg')).toBe('Longitude ends at 180 degrees, east or west.')
    expect(beside(body, 'zone')).toBe('This time zone is not known. Write it like Europe/Zurich.')
    expect(beside(body, 'heightM')).toBe('Write metres above the sea as a plain number, such as 1200.')
    expect(beside(body, 'horizon-2-altitudeDeg')).toBe('Write degrees such as 12, or fists such as 2 fists.')
  })
})

describe('the zone of a site', () => {
  it('is one whose clocks are those of the place, under any name', async () => {
    await post({ zone: 'Europe/Vienna' })
    expect(lastSite()?.zone).toBe('Europe/Vienna')
  })

  it.each([
    ['Asia/Tokyo', 'Europe/Berlin'],
    ['Africa/Lagos', 'Europe/Berlin'],
  ])('is told when it is %s, whose clocks differ, and is kept when the host says so', async (zone, place) => {
    const body = await refused({ zone })
    expect(beside(body, 'zone')).toContain(
      `The clocks of ${zone} are not those of this place all year: here they are those of ${place}.`,
    )
    expect(body).toContain('name="keepZone"')
    expect((await post({ zone, keepZone: 'true' })).statusCode).toBe(303)
    expect(lastSite()?.zone).toBe(zone)
    const { body: form } = await service.app.inject(asHost({ url: `/sites/${lastSite()?.id}/edit` }))
    expect((await post(filledIn(form), `/sites/${lastSite()?.id}`)).statusCode).toBe(303)
    expect((await post({ ...filledIn(form), latitudeDeg: '48.3' }, `/sites/${lastSite()?.id}`)).statusCode).toBe(422)
  })

  it('has a sentence of its own when there is none of that name, and no box to tick', async () => {
    const body = await refused({ zone: 'Middle/Earth' })
    expect(beside(body, 'zone')).toBe('This time zone is not known. Write it like Europe/Zurich.')
    expect(body).not.toContain('name="keepZone"')
  })
})
