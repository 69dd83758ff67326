import { describe, expect, it } from 'vitest'
import { north } from '../../seed-demo/north.ts'
import { nightProblems, siteProblems, telescopeProblems } from '../../server/tours/problems.ts'
import { schemaProblems } from '../../server/tours/schema-problems.ts'
import { createWords } from '../../server/words/words.ts'
import en from '../../views/words/en.json' with { type: 'json' }

const now = new Date('2026-12-01T12:00:00Z')
const { site, telescopes, night } = north
const [telescope] = telescopes
const words = createWords(en, { language: 'en', hours12: false, units: 'metric' })
const said = (problems: ReturnType<typeof siteProblems>) =>
  problems.map(({ field, key, values }) => `${field}: ${words.say(key, values)}`)

describe('a value of the wrong kind', () => {
  it('is answered with the kind that is expected', () => {
    expect(said(siteProblems({ ...site, latitudeDeg: [] }))).toEqual(['latitudeDeg: Write a number here.'])
    expect(said(siteProblems({ ...site, name: null }))).toEqual(['name: Write text here.'])
    expect(said(siteProblems({ ...site, glow: 'none' }))).toEqual(['glow: A list belongs here.'])
    expect(said(siteProblems([]))).toEqual([': A group of fields belongs here.'])
    const [station] = night.stations
    const wrongTick = { ...night, stations: [{ ...station, isForChildren: 'yes' }] }
    expect(said(nightProblems(wrongTick, now, site.zone))).toEqual([
      'stations.0.isForChildren: Say yes or no here: true or false.',
    ])
    const [row] = night.visitors
    expect(said(nightProblems({ ...night, visitors: [{ ...row, adults: 2.5 }] }, now, site.zone))).toEqual([
      'visitors.0.adults: Write a whole number here.',
    ])
  })
})

describe('a limit that is itself outside', () => {
  it('is not called inside', () => {
    const horizon = [{ azimuthDeg: 360, altitudeDeg: 8, name: 'oak' }]
    expect(said(siteProblems({ ...site, horizon }))).toEqual([
      'horizon.0.azimuthDeg: It must be from 0 up to but not including 360.',
    ])
  })

  it('is told from one that is inside, at either end and alone', () => {
    const one = (keyword: string, limit: number) =>
      said(schemaProblems([{ keyword, instancePath: '/a', params: { limit } }]))
    expect(one('exclusiveMinimum', 0)).toEqual(['a: It must be more than 0.'])
    expect(one('exclusiveMaximum', 5)).toEqual(['a: It must be less than 5.'])
    expect(one('minimum', 0)).toEqual(['a: It must be at least 0.'])
    const both = (limits: object) =>
      said(
        schemaProblems(
          [{ keyword: 'maximum', instancePath: '/a', schemaPath: '#/properties/a', params: { limit: 5 } }],
          {
            properties: { a: limits },
          },
        ),
      )
    expect(both({ minimum: 0, maximum: 5 })).toEqual(['a: It must be from 0 to 5.'])
    expect(both({ exclusiveMinimum: 0, maximum: 5 })).toEqual(['a: It must be more than 0 and at most 5.'])
    expect(both({ exclusiveMinimum: 0, exclusiveMaximum: 5 })).toEqual(['a: It must be more than 0 and less than 5.'])
  })
})

describe('public hours at a time that the clock change skips', () => {
  const hours = (opens: string, closes: string, date = '2027-03-28') =>
    nightProblems({ ...night, date, opens, closes, visitors: [] }, now, 'Europe/Zurich')

  it('are refused beside the time that does not exist', () => {
    expect(hours('02:30', '04:00')).toEqual([
      { field: 'opens', key: 'problem.time-skipped', values: { time: '02:30' } },
    ])
    expect(hours('22:00', '02:30', '2027-03-27')).toEqual([
      { field: 'closes', key: 'problem.time-skipped', values: { time: '02:30' } },
    ])
    expect(hours('02:00', '02:59').map(({ field }) => field)).toEqual(['opens', 'closes'])
    expect(said(hours('02:30', '04:00'))).toEqual([
      'opens: 02:30 does not exist that night: the clocks go forward. Choose another time.',
    ])
  })

  it('are fine on the next day, and at the very ends of the gap', () => {
    expect(hours('02:30', '04:00', '2027-03-29')).toEqual([])
    expect(hours('01:59', '03:00')).toMatchObject([{ key: 'problem.hours-short' }])
    expect(hours('01:30', '03:30')).toEqual([])
  })
})

describe('the kit of a telescope', () => {
  it('has no factor of exactly 1, which is neither a Barlow nor a reducer', () => {
    const factors = [0.63, 1, 2].map((factor) => ({ name: `${factor}x`, factor }))
    expect(telescopeProblems({ ...telescope, factors })).toEqual([
      { field: 'factors.1.factor', key: 'problem.factor-one' },
    ])
  })

  it('has a doubled name quoted as it was written', () => {
    const eyepieces = ['b', ' B '].map((name) => ({ name, focalLengthMm: 25, apparentFieldDeg: 52, fieldStopMm: null }))
    expect(telescopeProblems({ ...telescope, eyepieces })).toEqual([
      { field: 'eyepieces.1.name', key: 'problem.name-twice', values: { name: 'B' } },
    ])
  })
})

it('a glow that ends where it starts is refused', () => {
  expect(siteProblems({ ...site, glow: [{ fromDeg: 100, toDeg: 100, brighterMag: 1 }] })).toEqual([
    { field: 'glow.0.toDeg', key: 'problem.sector-empty' },
  ])
})
