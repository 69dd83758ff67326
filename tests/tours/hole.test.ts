import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { cloudHole, type Hole } from '../../server/tours/hole.ts'
import { firstOnes } from '../../server/tours/hole-first.ts'
import { instantOf, nightHours } from '../../server/tours/hours.ts'
import { placeCause } from '../../server/tours/offered.ts'
import { stepAt, sunAtStep, targetAt } from '../../server/tours/sky-at.ts'
import { SKY_PARTS, type SkyPart, skyPartOf } from '../../server/tours/sky-part.ts'
import { demoNight, southernNight } from '../support/demo-night.ts'
import { eveningOf, FOR_TELESCOPES } from '../support/evenings.ts'
import { A_HOLE } from '../support/hole-data.ts'
import { angleBetween, INSIDE_DEG } from '../support/hole-night.ts'

const objects = FOR_TELESCOPES
const north = eveningOf(demoNight, objects)
const south = eveningOf(southernNight, objects)
const EVERYWHERE = [...SKY_PARTS]
const AT = instantOf(demoNight, '19:00')

const holeAt = (open: readonly SkyPart[], at = AT): Hole => cloudHole({ ...north, open, at })
const linesOf = ({ stations }: Hole) => stations.flatMap(({ lines }) => lines)

describe('the parts of the sky', () => {
  it('are 45 degrees wide about their compass points, and overhead above 60 degrees', () => {
    const partAt = (azimuthDeg: number, altitudeDeg = 30) => skyPartOf({ azimuthDeg, altitudeDeg })
    expect([0, 22.4, 22.6, 45, 90, 180, 270, 337.4, 337.6, 360].map((azimuth) => partAt(azimuth))).toEqual([
      'n',
      'n',
      'ne',
      'ne',
      'e',
      's',
      'w',
      'nw',
      'n',
      'n',
    ])
    expect([partAt(270, 60), partAt(270, 60.1), partAt(10, 90)]).toEqual(['w', 'overhead', 'overhead'])
  })
})

describe('a cloud hole', () => {
  it('lists three different things for each telescope when all is open, what anyone sees before the rest', () => {
    const { stations, note } = holeAt(EVERYWHERE)
    expect(note).toBeNull()
    expect(stations.map(({ stationId }) => stationId)).toEqual(demoNight.stations.map(({ id }) => id))
    for (const { lines } of stations) {
      expect(lines).toHaveLength(3)
      expect(new Set(lines.map(({ targetKey }) => targetKey)).size).toBe(3)
      const easy = lines.map(({ isEasy }) => isEasy)
      expect(easy).toEqual([...easy].sort((a, b) => Number(b) - Number(a)))
    }
  })

  it('shows Moon and Saturn where they stand and not where they do not', () => {
    const moonPart = skyPartOf(targetAt(north.sky, north.sky.targetKeys.indexOf('moon'), AT))
    expect(linesOf(holeAt([moonPart])).map(({ targetKey }) => targetKey)).toContain('moon')
    const elsewhere = EVERYWHERE.filter((part) => part !== moonPart)
    expect(linesOf(holeAt(elsewhere)).map(({ targetKey }) => targetKey)).not.toContain('moon')
  })

  it('sends no more telescopes to one thing first than may show it at once', () => {
    const firsts = holeAt(EVERYWHERE).stations.map(({ lines }) => lines[0]?.targetKey)
    for (const key of new Set(firsts)) {
      const atOnce = objects.find((object) => object.key === key)?.atOnce ?? 0
      expect(firsts.filter((first) => first === key).length, key).toBeLessThanOrEqual(atOnce)
    }
  })

  it('is kind and has something to do when nothing is open, and says what to talk about when something was', () => {
    const shut = holeAt([])
    expect(shut).toMatchObject({ note: { code: 'hole.shut' }, open: [] })
    expect(linesOf(shut)).toEqual([])
    expect(shut.meanwhile.map(({ code }) => code)).toEqual(['hole.talk', 'hole.hands', 'hole.warm'])
    const [talk] = holeAt(EVERYWHERE).meanwhile
    expect(talk?.code).toBe('hole.talk-about')
    expect(objects.map(({ name }) => name)).toContain(talk?.values?.name)
  })

  it('tells a row without a telescope that it has none', () => {
    const stations = demoNight.stations.map((station) => ({ ...station, telescope: null }))
    const bare = eveningOf({ ...demoNight, stations }, objects)
    expect(cloudHole({ ...bare, open: EVERYWHERE, at: AT }).note).toEqual({ code: 'hole.no-telescope' })
  })

  it('offers nothing at all while the Sun is up', () => {
    const early = { ...demoNight, opens: '15:30', closes: '18:00' }
    const evening = eveningOf(early, objects)
    for (const minute of [0, 20, 40, 50]) {
      const at = new Date(nightHours(early).opensAt.getTime() + minute * 60_000)
      const hole = cloudHole({ ...evening, open: EVERYWHERE, at })
      const isUp = sunAtStep(evening.sky, stepAt(evening.sky, at)).altitudeDeg > -0.83
      if (!isUp) continue
      expect(hole.note).toEqual({ code: 'hole.sun' })
      expect(linesOf(hole)).toEqual([])
    }
    expect(sunAtStep(evening.sky, stepAt(evening.sky, nightHours(early).opensAt)).altitudeDeg).toBeGreaterThan(0)
  })

  it('names at any time only things in an open part that pass the gate, are seen by most and stay five minutes', () => {
    const evenings = fc.constantFrom(north, south)
    const open = fc.subarray(EVERYWHERE)
    fc.assert(
      fc.property(evenings, open, fc.integer({ min: 0, max: 180 }), (evening, parts, minute) => {
        const { opensAt, closesAt } = nightHours(evening.night)
        const at = new Date(Math.min(opensAt.getTime() + minute * 60_000, closesAt.getTime()))
        const hole = cloudHole({ ...evening, open: parts, at })
        expect(sunAtStep(evening.sky, stepAt(evening.sky, at)).altitudeDeg < -0.83 || hole.note !== null).toBe(true)
        for (const { stationId, lines } of hole.stations) {
          expect(lines.length).toBeLessThanOrEqual(3)
          const telescope = evening.night.stations.find(({ id }) => id === stationId)?.telescope
          for (const line of lines) {
            const place = targetAt(evening.sky, evening.sky.targetKeys.indexOf(line.targetKey), at)
            expect(isInside(parts, place), `${line.targetKey} ${parts}`).toBe(true)
            expect(telescope && placeCause(place, evening.night.site, telescope)).toBeNull()
            expect(line.chance).toBeGreaterThanOrEqual(0.5)
            expect(line.minutesLeft ?? 5).toBeGreaterThanOrEqual(5)
          }
        }
      }),
      { numRuns: 60 },
    )
  })
})

/** Told apart from how the service does it: by the angle to each open direction. */
function isInside(parts: readonly SkyPart[], place: { altitudeDeg: number; azimuthDeg: number }): boolean {
  if (place.altitudeDeg > 60) return parts.includes('overhead')
  return parts.some((part) => part !== 'overhead' && angleBetween(part, place.azimuthDeg) <= INSIDE_DEG)
}

describe('what stands first', () => {
  const line = A_HOLE.stations[0]?.lines[0]
  if (!line) throw new Error('The hole of the tests has a line')
  const lines = (...keys: [key: string, view: number, isEasy?: boolean][]) =>
    keys.map(([targetKey, view, isEasy = true]) => ({ ...line, targetKey, view, isEasy }))
  const once = (key: string) => ({ key, atOnce: 1 })

  it('goes to the telescope that shows it best, and the other takes its second', () => {
    const row = [
      { stationId: 'small', lines: lines(['saturn', 0.6], ['moon', 0.5]) },
      { stationId: 'big', lines: lines(['saturn', 0.9], ['moon', 0.8]) },
    ]
    const spread = firstOnes(row, [once('saturn'), once('moon')])
    expect(spread.map((station) => station.lines.map(({ targetKey }) => targetKey))).toEqual([
      ['moon', 'saturn'],
      ['saturn', 'moon'],
    ])
  })

  it('never puts a thing that few see before one that anyone sees', () => {
    const row = [
      { stationId: 'a', lines: lines(['saturn', 0.9], ['m33', 0.3, false]) },
      { stationId: 'b', lines: lines(['saturn', 0.8], ['m33', 0.4, false]) },
    ]
    const spread = firstOnes(row, [once('saturn'), once('m33')])
    expect(spread.map((station) => station.lines[0]?.targetKey)).toEqual(['saturn', 'saturn'])
  })
})
