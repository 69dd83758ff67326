import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { readPlace } from '../../server/words/coordinates.ts'
import { heightDeg } from '../../server/words/heights.ts'
import { ENGLISH } from '../support/page-data.ts'

const read = (latitude: string, longitude = '') => readPlace(ENGLISH, { latitude, longitude })
const problemsOf = (latitude: string, longitude = '') =>
  read(latitude, longitude).problems.map(({ field, key }) => `${field} ${key.replace('problem.', '')}`)
/** Any longitude, where only the latitude is looked at. */
const latitudeOf = (text: string): number => read(text, '8.5').latitudeDeg
const longitudeOf = (text: string): number => read('47.1', text).longitudeDeg

describe('a coordinate as people write it', () => {
  it.each([
    ['47.123', 47.123],
    ['47,123', 47.123],
    ['  -47.123 ', -47.123],
    ['−47,123', -47.123],
    ['+47', 47],
    ['47.123°', 47.123],
    ['47.123 N', 47.123],
    ['N47.123', 47.123],
    ['s 47.123', -47.123],
    ['47,123 south', -47.123],
    ["47° 7.4' N", 47 + 7.4 / 60],
    ['47° 7,4′ N', 47 + 7.4 / 60],
    ['N 47 07.4', 47 + 7.4 / 60],
    ['47 7 24 N', 47 + 7.4 / 60],
    ['47°07’24”S', -(47 + 7.4 / 60)],
    ["47°7'24''", 47 + 7.4 / 60],
    ['47°7’24’’ N', 47 + 7.4 / 60],
    ['47:07:24', 47 + 7.4 / 60],
    ['-0 30', -0.5],
    ['0', 0],
  ])('reads %s as a latitude', (text, expected) => {
    expect(read(text, '8.5').problems).toEqual([])
    expect(latitudeOf(text)).toBeCloseTo(expected, 6)
  })

  it('reads east and west, and never a minus zero', () => {
    expect(longitudeOf('8° 32.5 E')).toBeCloseTo(8.541667, 6)
    expect(longitudeOf('W 74 0 22')).toBeCloseTo(-74.006111, 6)
    expect(Object.is(longitudeOf('0 W'), 0)).toBe(true)
  })

  it.each([
    ['47.123, 8.543', 47.123, 8.543],
    ['47,123, 8,543', 47.123, 8.543],
    ['47,123; 8,543', 47.123, 8.543],
    ['47.123 8.543', 47.123, 8.543],
    ['47.123,8.543', 47.123, 8.543],
    ['-33.9 -70.5', -33.9, -70.5],
    ['-33.9, 151.2', -33.9, 151.2],
    ["47° 7.4' N, 8° 32.5' E", 47 + 7.4 / 60, 8 + 32.5 / 60],
    ["47° 7.4' N 8° 32.5' E", 47 + 7.4 / 60, 8 + 32.5 / 60],
    ['N 47 07.4 E 8 32.5', 47 + 7.4 / 60, 8 + 32.5 / 60],
    ['47 7 24 N 8 32 30 E', 47 + 7.4 / 60, 8 + 32.5 / 60],
    ['47 7.4 8 32.5', 47 + 7.4 / 60, 8 + 32.5 / 60],
    ['8.543 E, 47.123 N', 47.123, 8.543],
  ])('reads %s as both, in either field', (text, latitudeDeg, longitudeDeg) => {
    for (const place of [read(text), read('', text)]) {
      expect(place.problems).toEqual([])
      expect(place.latitudeDeg).toBeCloseTo(latitudeDeg, 6)
      expect(place.longitudeDeg).toBeCloseTo(longitudeDeg, 6)
    }
  })

  it.each([
    [
      '2° 41\' 44.598" N',
      '72° 57\' 48.541" E',
      2.69572167,
      72.96348361,
      'worked example in the readme of medo-mi/dms-to-dd',
    ],
    ['1 30', '0 30 45', 1.5, 0.5125, 'metacpan, Geo::Coordinates::DecimalDegrees 0.09, its introduction'],
    [
      '+48.8577+002.295/',
      '',
      48.8577,
      2.295,
      'the Eiffel Tower in the examples of ISO 6709, as tripatlas.com prints them',
    ],
    ['+40.6894-074.0447/', '', 40.6894, -74.0447, 'the Statue of Liberty, likewise'],
  ])('reads %s %s as others do', (latitude, longitude, latitudeDeg, longitudeDeg, _source) => {
    const place = read(latitude, longitude)
    expect(place.problems).toEqual([])
    expect(place.latitudeDeg).toBeCloseTo(latitudeDeg, 7)
    expect(place.longitudeDeg).toBeCloseTo(longitudeDeg, 7)
  })

  it('reads back any place in decimals, and in degrees and minutes to a tenth of a second', () => {
    const place = fc.tuple(
      fc.double({ min: -90, max: 90, noNaN: true }),
      fc.double({ min: -180, max: 180, noNaN: true }),
    )
    fc.assert(
      fc.property(place, ([latitude, longitude]) => {
        const plain = read(latitude.toFixed(5), longitude.toFixed(5))
        expect([plain.latitudeDeg, plain.longitudeDeg]).toEqual([
          Number(latitude.toFixed(5)) || 0,
          Number(longitude.toFixed(5)) || 0,
        ])
        const minutes = (deg: number) => {
          const all = Math.round(Math.abs(deg) * 60 * 1000) / 1000
          return `${Math.floor(all / 60)}° ${(all % 60).toFixed(3)}'`
        }
        const whole = read(
          `${minutes(latitude)} ${latitude < 0 ? 'S' : 'N'}, ${minutes(longitude)} ${longitude < 0 ? 'W' : 'E'}`,
        )
        if (/60\.000/.test(minutes(latitude) + minutes(longitude))) return
        expect(whole.problems).toEqual([])
        expect(Math.abs(whole.latitudeDeg - latitude)).toBeLessThan(1e-5)
        expect(Math.abs(whole.longitudeDeg - longitude)).toBeLessThan(1e-5)
      }),
      { seed: 8, numRuns: 200 },
    )
  })
})

describe('what is no place', () => {
  it.each([
    ['8° 32 E', '47° 7 N', 'latitudeDeg place-swapped'],
    ['8 E', '47', 'latitudeDeg place-swapped'],
    ['8', '47 N', 'latitudeDeg place-swapped'],
    ['151.2', '-33.9', 'latitudeDeg place-swapped'],
    ['151.2, -33.9', '', 'latitudeDeg place-swapped'],
    ['-47 S', '8', 'latitudeDeg place-sign-and-letter'],
    ['-47 N', '8', 'latitudeDeg place-sign-and-letter'],
    ['47', '-8 W', 'longitudeDeg place-sign-and-letter'],
    ['47 60 N', '8', 'latitudeDeg place-minutes'],
    ['47', '8 75.2', 'longitudeDeg place-minutes'],
    ['47 7 60', '8', 'latitudeDeg place-seconds'],
    ['95', '120', 'latitudeDeg place-beyond-latitudeDeg'],
    ['47', '181', 'longitudeDeg place-beyond-longitudeDeg'],
    ['47.1, 8.5', '8.5', 'latitudeDeg place-both'],
    ['47.1', '47.1, 8.5', 'longitudeDeg place-both'],
    ['here', '8', 'latitudeDeg place-unread'],
    ['47.5 7', '8', 'latitudeDeg place-both'],
    ['47° 7.4 24', '8', 'latitudeDeg place-unread'],
    ['47 7 24 5 N', '8', 'latitudeDeg place-unread'],
    ['47 N N', '8', 'latitudeDeg place-unread'],
    ['47 - 7', '8', 'latitudeDeg place-both'],
    ['47 7 24 5 N', '', 'latitudeDeg place-unread'],
    ['47', '', 'longitudeDeg place-unread'],
    ["47' 7°", '8', 'latitudeDeg place-unread'],
    ['1, 2, 3', '', 'latitudeDeg place-unread'],
  ])('%s and %s', (latitude, longitude, expected) => {
    expect(problemsOf(latitude, longitude)[0]).toBe(expected)
  })

  it('is nothing at all, told at both fields', () => {
    expect(problemsOf('', '')).toEqual(['latitudeDeg place-unread', 'longitudeDeg place-unread'])
  })

  it('is no text of any kind: every text is read or refused, and what is read lies on the Earth', () => {
    fc.assert(
      fc.property(fc.string(), fc.string({ unit: 'grapheme' }), (latitude, longitude) => {
        const place = read(latitude, longitude)
        if (place.problems.length > 0) return
        expect(Math.abs(place.latitudeDeg)).toBeLessThanOrEqual(90)
        expect(Math.abs(place.longitudeDeg)).toBeLessThanOrEqual(180)
      }),
      { seed: 8, numRuns: 300 },
    )
  })
})

describe('a height', () => {
  it.each([
    ['12', 12],
    ['12,5', 12.5],
    ['12.5°', 12.5],
    ['12 degrees', 12],
    ['2 fists', 20],
    ['1 fist', 10],
    ['1.5 fists', 15],
    ['1,5 Fists', 15],
    ['2½ fists', 25],
    ['½ fist', 5],
    ['half a fist', 5],
    ['7 fists', 70],
  ])('%s is %d degrees', (text, expected) => expect(heightDeg(ENGLISH, text)).toBeCloseTo(expected, 9))

  it.each(['', 'fists', 'two fists', '2 feet', '-3', '1 2', '1.2.3', 'oak'])('%s is none', (text) =>
    expect(heightDeg(ENGLISH, text)).toBeNaN(),
  )
})
