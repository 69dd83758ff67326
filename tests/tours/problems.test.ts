import { describe, expect, it } from 'vitest'
import { north } from '../../seed-demo/north.ts'
import { nightProblems, siteProblems, telescopeProblems } from '../../server/tours/problems.ts'
import { schemaProblems } from '../../server/tours/schema-problems.ts'

const now = new Date('2026-12-01T12:00:00Z')
const { site, telescopes, night } = north
const [telescope] = telescopes
const zone = 'Europe/Zurich'

describe('a site', () => {
  it('of the demo is fine', () => {
    expect(siteProblems(site)).toEqual([])
  })

  it('names both ends of a range that is left', () => {
    expect(siteProblems({ ...site, latitudeDeg: 91 })).toEqual([
      { field: 'latitudeDeg', key: 'problem.range', values: { minimum: -90, maximum: 90 } },
    ])
  })

  it('names every missing field', () => {
    const { latitudeDeg: _, zone: __, ...rest } = site
    expect(siteProblems(rest).map(({ field, key }) => `${field} ${key}`)).toEqual([
      'latitudeDeg problem.required',
      'zone problem.required',
    ])
  })

  it('lies in a zone that exists', () => {
    expect(siteProblems({ ...site, zone: 'Europe/Nowhere' })).toEqual([{ field: 'zone', key: 'problem.zone-unknown' }])
  })

  it('has each point of its skyline once, with a path to the second', () => {
    const point = { azimuthDeg: 90, altitudeDeg: 8, name: 'oak' }
    expect(siteProblems({ ...site, horizon: [point, { ...point, altitudeDeg: 12 }] })).toEqual([
      { field: 'horizon.1.azimuthDeg', key: 'problem.azimuth-twice', values: { azimuth: 90 } },
    ])
  })

  it('is told about something that is no object at all', () => {
    expect(siteProblems('nonsense')).toEqual([{ field: '', key: 'problem.type-object', values: { type: 'object' } }])
  })
})

describe('a telescope', () => {
  it('of the demo is fine', () => {
    expect(telescopes.flatMap((draft) => telescopeProblems(draft))).toEqual([])
  })

  it('needs a tube and an eyepiece', () => {
    expect(telescopeProblems({ ...telescope, tubes: [], eyepieces: [] })).toEqual([
      { field: 'tubes', key: 'problem.no-tube' },
      { field: 'eyepieces', key: 'problem.no-eyepiece' },
    ])
  })

  it('has an eyepiece of 0 mm pointed out in words of its own', () => {
    const eyepieces = [{ name: 'none', focalLengthMm: 0, apparentFieldDeg: 50, fieldStopMm: null }]
    expect(telescopeProblems({ ...telescope, eyepieces })).toEqual([
      { field: 'eyepieces.0.focalLengthMm', key: 'problem.eyepiece-zero' },
    ])
  })

  it('names the field inside the list that is wrong', () => {
    const tubes = [{ ...telescope?.tubes[0], apertureMm: 5 }]
    expect(telescopeProblems({ ...telescope, tubes })).toEqual([
      { field: 'tubes.0.apertureMm', key: 'problem.range', values: { minimum: 20, maximum: 1500 } },
    ])
  })

  it('knows its kinds of mount', () => {
    expect(telescopeProblems({ ...telescope, mount: 'balloon' })).toEqual([
      { field: 'mount', key: 'problem.choice', values: {} },
    ])
  })

  it('has legs that are not longer when short', () => {
    expect(telescopeProblems({ ...telescope, axisLowCm: 120, axisHighCm: 90 })).toEqual([
      { field: 'axisHighCm', key: 'problem.axis-order' },
    ])
  })
})

describe('a night', () => {
  const keysOf = (draft: unknown) => nightProblems(draft, now, zone).map(({ field, key }) => `${field} ${key}`)

  it('of the demo is fine', () => {
    expect(keysOf(night)).toEqual([])
  })

  it('ends after it begins, and within twelve hours', () => {
    expect(keysOf({ ...night, opens: '21:00', closes: '18:00', visitors: [] })).toEqual(['closes problem.hours-order'])
    expect(keysOf({ ...night, opens: '18:00', closes: '07:00', visitors: [] })).toEqual(['closes problem.hours-long'])
    expect(keysOf({ ...night, opens: '22:00', closes: '01:00', visitors: [] })).toEqual([])
  })

  it('is not in the past by the evening clock', () => {
    expect(nightProblems(night, new Date('2026-12-18T12:00:00Z'), zone)[0]?.key).toBe('problem.night-past')
    expect(nightProblems(night, new Date('2026-12-17T19:00:00Z'), zone)).toEqual([])
  })

  it('falls on a day of the calendar', () => {
    expect(keysOf({ ...night, date: '2027-02-30' })).toEqual(['date problem.no-such-day'])
  })

  it('has its half hours inside the public hours, once each', () => {
    const [row] = night.visitors
    expect(keysOf({ ...night, visitors: [{ ...row, startsAt: '22:00' }] })).toEqual([
      'visitors.0.startsAt problem.half-hour-outside',
    ])
    expect(keysOf({ ...night, visitors: [row, row] })).toEqual(['visitors.1.startsAt problem.half-hour-twice'])
  })

  it('lasts a quarter of an hour at least, the shortest time for which a telescope shows one thing', () => {
    expect(nightProblems({ ...night, opens: '18:00', closes: '18:01', visitors: [] }, now, zone)).toEqual([
      { field: 'closes', key: 'problem.hours-short', values: { minimum: 15 } },
    ])
    expect(keysOf({ ...night, opens: '18:07', closes: '18:22', visitors: [] })).toEqual([])
  })

  it('takes a table of visitors when the clocks change in it, without the half hours that do not exist', () => {
    const [row] = night.visitors
    const keysIn = (zoneOf: string, date: string, opens: string, closes: string, starts: readonly string[]) => {
      const draft = { ...night, date, opens, closes, visitors: starts.map((startsAt) => ({ ...row, startsAt })) }
      return nightProblems(draft, now, zoneOf).map(({ field, key }) => `${field} ${key}`)
    }
    const berlin = (date: string, starts: readonly string[]) => keysIn('Europe/Berlin', date, '22:00', '03:30', starts)
    expect(berlin('2027-03-27', ['01:30', '03:00'])).toEqual([])
    expect(berlin('2027-03-27', ['01:30', '02:00', '02:30', '03:00'])).toEqual([
      'visitors.1.startsAt problem.half-hour-skipped',
      'visitors.2.startsAt problem.half-hour-skipped',
    ])
    expect(berlin('2027-10-30', ['01:30', '02:00', '02:30', '03:00'])).toEqual([])
    expect(keysIn('America/Santiago', '2027-09-04', '21:00', '01:30', ['23:30', '01:00'])).toEqual([])
    expect(keysIn('America/Santiago', '2027-09-04', '21:00', '01:30', ['00:00', '01:00'])).toEqual([
      'visitors.0.startsAt problem.half-hour-skipped',
    ])
  })

  it('uses a telescope at one station only, and one at every telescope station', () => {
    const [station] = night.stations
    expect(keysOf({ ...night, stations: [station, { ...station, name: 'Again' }] })).toEqual([
      'stations.1.telescopeId problem.telescope-twice',
    ])
    expect(keysOf({ ...night, stations: [{ ...station, telescopeId: null }] })).toEqual([
      'stations.0.telescopeId problem.station-without-telescope',
    ])
  })
})

describe('errors of a request body as Ajv writes them', () => {
  it('become problems with the same keys', () => {
    const errors = [
      { keyword: 'required', instancePath: '', params: { missingProperty: 'name' } },
      { keyword: 'minimum', instancePath: '/tubes/0/apertureMm', params: { comparison: '>=', limit: 20 } },
      { keyword: 'additionalProperties', instancePath: '', params: { additionalProperty: 'colour' } },
    ]
    expect(schemaProblems(errors)).toEqual([
      { field: 'name', key: 'problem.required', values: {} },
      { field: 'tubes.0.apertureMm', key: 'problem.at-least', values: { minimum: 20 } },
      { field: 'colour', key: 'problem.unknown-field', values: {} },
    ])
  })
})
