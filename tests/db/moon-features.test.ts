import { describe, expect, it } from 'vitest'
import { moonFeaturesOf, readMoonFeatures } from '../../db/catalogue/moon-features.ts'
import { MOON_FEATURE_KINDS } from '../../server/sight/moon-features.ts'
import { OUTREACH } from '../support/evenings.ts'

const list = readMoonFeatures()

describe('the list of the Moon', () => {
  it('holds sixty things or more, of every kind, all of the near side, and hangs on the Moon of the outreach list', () => {
    expect(list.length).toBeGreaterThanOrEqual(60)
    for (const kind of MOON_FEATURE_KINDS) expect(list.map((feature) => feature.kind)).toContain(kind)
    expect(OUTREACH.flatMap(({ key, features }) => (features.length === 0 ? [] : [key]))).toEqual(['moon'])
    expect(OUTREACH.find(({ key }) => key === 'moon')?.features).toEqual(list)
  })

  it('has something for every evening: a gap of less than 15 degrees between one longitude and the next', () => {
    const longitudes = list.map(({ longitudeDeg }) => longitudeDeg).toSorted((a, b) => a - b)
    for (const [i, longitude] of longitudes.slice(1).entries())
      expect(longitude - (longitudes[i] ?? 0), String(longitude)).toBeLessThan(15)
  })

  it('gives rilles, domes and ridges the lowest Sun, peaks a higher one, rays and seas the highest', () => {
    for (const { name, kind, bestFromDeg, bestToDeg } of list) {
      if (kind === 'rille' || kind === 'dome' || kind === 'ridge') expect(bestToDeg, name).toBeLessThanOrEqual(4)
      if (kind === 'crater' || kind === 'peak-crater') expect(bestToDeg, name).toBeLessThanOrEqual(15)
      if (kind === 'sea' || kind === 'rays') expect(bestFromDeg, name).toBeGreaterThanOrEqual(25)
    }
  })

  it('puts a few places where maps have them', () => {
    // Gazetteer of Planetary Nomenclature, from memory, to a degree
    const places = {
      Tycho: [-11, -43],
      Plato: [-9, 52],
      Copernicus: [-20, 10],
      Langrenus: [61, -9],
      Grimaldi: [-68, -5],
    }
    for (const [name, [longitude = 0, latitude = 0]] of Object.entries(places)) {
      const feature = list.find((each) => each.name === name)
      expect(Math.abs((feature?.longitudeDeg ?? 99) - longitude), name).toBeLessThan(1)
      expect(Math.abs((feature?.latitudeDeg ?? 99) - latitude), name).toBeLessThan(1)
    }
  })
})

const HEADER = 'name,official,kind,longitudeDeg,latitudeDeg,diameterKm,bestFromDeg,bestToDeg,see,sources'
const SOURCES = '"place: IAU gazetteer, from memory; best: our judgement; see: from memory"'
const ROW = `Lantern,Lantern,crater,10,-20,80,1,10,A round hollow to look into.,${SOURCES}`
const read = (...rows: readonly string[]) => moonFeaturesOf({ name: 'moon.csv', text: [HEADER, ...rows].join('\n') })

describe('a row of it', () => {
  it('is read into numbers and words', () => {
    expect(read(ROW)).toEqual([
      {
        name: 'Lantern',
        official: 'Lantern',
        kind: 'crater',
        longitudeDeg: 10,
        latitudeDeg: -20,
        diameterKm: 80,
        bestFromDeg: 1,
        bestToDeg: 10,
        see: 'A round hollow to look into.',
      },
    ])
  })

  it.each([
    ['on the far side', ROW.replace(',10,-20,', ',110,-20,'), /moon\.csv line 3: longitudeDeg/],
    ['without a width', ROW.replace(',80,', ',,'), /moon\.csv line 3: diameterKm/],
    ['of an unknown kind', ROW.replace('crater', 'castle'), /moon\.csv line 3: kind/],
    ['with its heights turned round', ROW.replace(',1,10,', ',10,1,'), /line 3: bestFromDeg must lie under bestToDeg/],
    ['without a source', ROW.replace('best: our judgement; ', ''), /line 3: best has no source/],
    [
      'of a source that nobody knows',
      ROW.replace('IAU gazetteer, from memory', 'a friend'),
      /line 3: place has no source/,
    ],
    ['that ends in no full stop', ROW.replace('into.', 'into'), /line 3: see/],
    ['with a cell too many', `${ROW},more`, /moon\.csv: /],
    [
      'of a name that is taken',
      ROW.replace('Lantern,Lantern', 'Lamp,Lamp'),
      /line 3: "Lamp" already stands at moon\.csv line 2/,
    ],
  ])('%s is refused, naming file and line', (_what, row, message) => {
    expect(() => read(ROW.replaceAll('Lantern', 'Lamp'), row)).toThrow(message)
  })
})
