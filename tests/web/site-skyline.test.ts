import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { pagedApp } from '../support/paged-app.ts'
import { filledIn } from '../support/typed-form.ts'
import { beside, type Fields, postSite, refusedSite, told } from '../support/typed-site.ts'
import type { TestApp } from '../support/web.ts'

let service: TestApp
beforeAll(async () => {
  service = await pagedApp()
})
afterAll(() => service.app.close())

const post = (fields: Fields, url?: string) => postSite(service.app, fields, url)
const refused = (fields: Fields) => refusedSite(service, fields)
const lastSite = () => service.kept.sites.at(-1)

describe('heights by fists', () => {
  it('are kept in degrees, by compass points and by corners', async () => {
    await post({ 'horizon.4.altitudeDeg': '1.5 fists', 'horizon.4.name': 'oak' })
    expect(lastSite()?.horizon[4]).toEqual({ azimuthDeg: 90, altitudeDeg: 15, name: 'oak' })
    await post({ cornerRows: '1', 'horizon.0.azimuthDeg': 'SW', 'horizon.0.altitudeDeg': '2 fists' })
    expect(lastSite()?.horizon).toEqual([{ azimuthDeg: 225, altitudeDeg: 20, name: '' }])
  })

  it('end at six', async () => {
    const body = await refused({ 'horizon.4.altitudeDeg': '7 fists' })
    expect(beside(body, 'horizon-4-altitudeDeg')).toBe('A height goes up to 60 degrees, which is 6 fists.')
  })
})

describe('a skyline from a list', () => {
  const take = (list: string, fields: Fields = {}) => post({ skylineList: list, act: 'take-list', ...fields })

  it('fills the rows for a look, and is kept only after it', async () => {
    const list =
      '# from the gate\nDirection; height; what\n\n0; 5,5; hedge # low\nNE;2 fists;"oak, old"\n112,5\t10\n180, 12,5, roof\n270,8,fence\n'
    const before = service.kept.sites.length
    const answer = await take(list, { name: 'Listed' })
    expect([answer.statusCode, service.kept.sites.length]).toEqual([200, before])
    expect(told(answer.body)).toEqual([
      'The list filled in 5 corners. Look at the picture and the table, then keep the site.',
      'Line 2 was passed over as a heading.',
      'The list has no corner from NE to 112,5 (68 degrees), 112,5 to 180 (68 degrees), 180 to 270 (90 degrees), and 270 to 0 (90 degrees): the skyline is drawn straight there. If it is not, add what stands between.',
    ])
    expect((await post(filledIn(answer.body))).statusCode).toBe(303)
    expect(lastSite()).toMatchObject({
      name: 'Listed',
      horizon: [
        { azimuthDeg: 0, altitudeDeg: 5.5, name: 'hedge' },
        { azimuthDeg: 45, altitudeDeg: 20, name: 'oak, old' },
        { azimuthDeg: 112.5, altitudeDeg: 10, name: '' },
        { azimuthDeg: 180, altitudeDeg: 12.5, name: 'roof' },
        { azimuthDeg: 270, altitudeDeg: 8, name: 'fence' },
      ],
    })
  })

  it('tells every bad line by its number, takes nothing of it, and leaves it as it was pasted', async () => {
    const list = [
      '0, 5, hedge',
      'nowhere, 5',
      '',
      '45',
      '60;; gap',
      '90, tall, oak',
      '100, 75, mast',
      '# the same again',
      '0,5,again',
      `200, 5, ${'x'.repeat(41)}`,
      '210,5,12,5,roof',
      '220, "5, roof',
    ].join('\n')
    const body = await refused({ skylineList: list, act: 'take-list', 'horizon.2.name': 'barn' })
    expect(beside(body, 'skylineList').match(/(?<=<li>).*?(?=<\/li>)/g)).toEqual([
      'Line 2: “nowhere” is no direction: write a compass point such as north-west or NW, or degrees from 0 to 360.',
      'Line 4: The height is missing.',
      'Line 5: The height is missing.',
      'Line 6: “tall” is no height: write degrees such as 12, or fists such as 2 fists.',
      'Line 7: A height goes up to 60 degrees, which is 6 fists.',
      'Line 9: The direction 0 is on line 1 already. Take one of the two lines out.',
      'Line 10: The name is too long: 40 letters at most.',
      'Line 11: Write three things: direction, height, name. With decimal commas, part them by semicolons.',
      expect.stringMatching(/^Line 12: /),
    ])
  })

  it('may have 72 corners and no more', async () => {
    const rows = (count: number) => Array.from({ length: count }, (_, i) => `${i * 4.5}; 5`).join('\n')
    const full = await take(rows(72))
    expect([full.statusCode, filledIn(full.body).cornerRows]).toEqual([200, '72'])
    expect((await post(filledIn(full.body))).statusCode).toBe(303)
    const body = await refused({ skylineList: rows(73), act: 'take-list' })
    expect(beside(body, 'skylineList')).toContain('Line 73: The list has 73 corners, and 72 can be kept.')
  })

  it('is not forgotten when the site is kept at once: it is shown first, with whatever else is wrong', async () => {
    const before = service.kept.sites.length
    const answer = await post({ skylineList: '0; 5', act: 'save' })
    expect([answer.statusCode, service.kept.sites.length]).toEqual([200, before])
    expect(filledIn(answer.body)).toMatchObject({ 'horizon.0.azimuthDeg': '0', 'horizon.0.altitudeDeg': '5' })
    const body = await refused({ skylineList: '0; high', act: 'save', heightM: 'low' })
    expect([beside(body, 'heightM'), beside(body, 'skylineList')]).toEqual([
      'Write metres above the sea as a plain number, such as 1200.',
      expect.stringContaining('Line 1: “high” is no height'),
    ])
  })
})

describe('a skyline that is tapped', () => {
  const GLOW = { 'glow.0.fromDeg': 'nw', 'glow.0.toDeg': 'N', 'glow.0.brighterMag': '1' }

  it('gets a corner where it was tapped, and everything else stays', async () => {
    const first = await post({ 'tap.90.x': '135', 'tap.90.y': '126', name: 'Tapped', ...GLOW })
    expect([first.statusCode, told(first.body)]).toEqual([
      200,
      ['Row 1 has a new corner: south-east, 20 degrees high.'],
    ])
    const fields = filledIn(first.body)
    expect(fields).toMatchObject({
      name: 'Tapped',
      'glow.0.fromDeg': 'nw',
      cornerRows: '1',
      'horizon.0.altitudeDeg': '20',
    })
    const second = filledIn((await post({ ...fields, 'tap.0.x': '30', 'tap.0.y': '186' })).body)
    expect(second).toMatchObject({
      'horizon.0.azimuthDeg': '10°',
      'horizon.0.altitudeDeg': '0',
      'horizon.1.altitudeDeg': '20',
    })
    const higher = await post({ ...second, 'horizon.1.name': 'oak', 'tap.90.x': '138', 'tap.90.y': '96' })
    expect(told(higher.body)).toEqual(['The corner at south-east is now 30 degrees high.'])
    expect((await post(filledIn(higher.body))).statusCode).toBe(303)
    expect(lastSite()?.horizon).toEqual([
      { azimuthDeg: 10, altitudeDeg: 0, name: '' },
      { azimuthDeg: 135, altitudeDeg: 30, name: 'oak' },
    ])
  })

  it('keeps a skyline by compass points, whose open points become corners on the ground', async () => {
    const { body } = await post({
      'horizon.4.altitudeDeg': '1 fist',
      'horizon.4.name': 'oak',
      'tap.180.x': '15',
      'tap.180.y': '156',
    })
    const fields = filledIn(body)
    expect(fields).toMatchObject({
      cornerRows: '17',
      'horizon.4.altitudeDeg': '1 fist',
      'horizon.9.azimuthDeg': '185°',
    })
    await post(fields)
    expect(lastSite()?.horizon).toHaveLength(17)
    expect(lastSite()?.horizon.slice(8, 10)).toEqual([
      { azimuthDeg: 180, altitudeDeg: 0, name: '' },
      { azimuthDeg: 185, altitudeDeg: 10, name: '' },
    ])
  })

  it('takes no press of a key for a tap, and no 73rd corner', async () => {
    expect(told((await post({ 'tap.0.x': '0', 'tap.0.y': '0' })).body)).toEqual([
      'Tap on the picture itself, or type into the table below.',
    ])
    const full = Object.fromEntries(
      Array.from({ length: 72 }, (_, i) => [
        [`horizon.${i}.azimuthDeg`, String(4 * i)],
        [`horizon.${i}.altitudeDeg`, '5'],
      ]).flat(),
    )
    const answer = await post({ ...full, cornerRows: '72', 'tap.270.x': '240', 'tap.270.y': '90' })
    expect(told(answer.body)[0]).toContain('There are 72 corners already')
    expect(filledIn(answer.body)).toMatchObject({ cornerRows: '72', 'horizon.71.azimuthDeg': '284' })
  })
})
