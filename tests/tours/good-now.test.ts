import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { type GoodNow, type GoodNowAsk, goodNow } from '../../server/tours/good-now.ts'
import { instantOf, nightHours } from '../../server/tours/hours.ts'
import { placeCause } from '../../server/tours/offered.ts'
import { stepAt, sunAtStep, targetAt } from '../../server/tours/sky-at.ts'
import { SKY_PARTS, skyPartOf } from '../../server/tours/sky-part.ts'
import { demoNight, southernNight } from '../support/demo-night.ts'
import { eveningOf, FOR_TELESCOPES } from '../support/evenings.ts'

const objects = FOR_TELESCOPES
const north = eveningOf(demoNight, objects)
const south = eveningOf(southernNight, objects)
const AT = instantOf(demoNight, '19:00')
const HERE = demoNight.stations.find(({ telescope }) => telescope !== null)?.id ?? ''
const THERE = demoNight.stations.findLast(({ telescope }) => telescope !== null)?.id ?? ''

const PLAIN: GoodNowAsk = { stationId: HERE, at: AT, row: [], nextKey: null, shut: [], wishes: [], askedKeys: [] }
const now = (more: Partial<GoodNowAsk> = {}): GoodNow => goodNow({ ...north, ...PLAIN, ...more })
const keysOf = ({ lines }: GoodNow): string[] => lines.map(({ targetKey }) => targetKey)
const shows = (stationId: string, targetKey: string) => ({ stationId, targetKey, aim: 'whole' as const })
const atOnceOf = (key: string): number => objects.find((object) => object.key === key)?.atOnce ?? 0

describe('six good things now', () => {
  it('are six different things, the worthiest first, each with what to put in', () => {
    const { lines, note } = now()
    expect(note).toBeNull()
    expect(lines).toHaveLength(6)
    expect(new Set(lines.map(({ targetKey }) => targetKey)).size).toBe(6)
    const worths = lines.map(({ worth }) => worth)
    expect(worths).toEqual([...worths].sort((a, b) => b - a))
    for (const { setups, worth, chance } of lines) {
      expect(setups.length).toBeGreaterThan(0)
      expect(worth).toBeGreaterThan(0)
      expect(chance).toBeGreaterThanOrEqual(0.5)
    }
  })

  it('are the same each time they are asked for', () => expect(now()).toEqual(now()))

  it('leave out what is on here, and what comes next', () => {
    const [first = '', second = ''] = keysOf(now())
    const { lines, on } = now({ row: [shows(HERE, first)], nextKey: second })
    expect(lines.map(({ targetKey }) => targetKey)).not.toContain(first)
    expect(lines.map(({ targetKey }) => targetKey)).not.toContain(second)
    expect(on).toMatchObject({ targetKey: first, aim: 'whole', group: expect.stringMatching(/good|going/) })
    expect(now().on).toBeNull()
  })

  it('leave out what a neighbour shows where its number allows no more, and say so when it is asked for', () => {
    const alone = keysOf(now()).find((key) => atOnceOf(key) === 1) ?? ''
    const row = [shows(THERE, alone)]
    expect(keysOf(now({ row }))).not.toContain(alone)
    const [asked] = now({ row, askedKeys: [alone] }).asked
    const station = demoNight.stations.find(({ id }) => id === THERE)?.name
    expect(asked?.but).toEqual({ code: 'now.taken', values: { station } })
  })

  it('keep what may stand at several telescopes while there is one left', () => {
    const often = objects.filter(({ atOnce }) => atOnce > 1).map(({ key }) => key)
    const key = keysOf(now()).find((each) => often.includes(each))
    if (key === undefined) throw new Error('One of the six of the demo night may stand at several telescopes')
    expect(keysOf(now({ row: [shows(THERE, key)] }))).toContain(key)
  })

  it('leave out parts of the sky that are told to be shut, and say so when one is asked for', () => {
    const moonPart = skyPartOf(targetAt(north.sky, north.sky.targetKeys.indexOf('moon'), AT))
    const { lines, asked } = now({ shut: [moonPart], askedKeys: ['moon'] })
    for (const { altitudeDeg, azimuthDeg } of lines) expect(skyPartOf({ altitudeDeg, azimuthDeg })).not.toBe(moonPart)
    expect(asked[0]?.but).toEqual({ code: 'now.clouded' })
    expect(now({ shut: SKY_PARTS }).note).toEqual({ code: 'now.nothing' })
  })

  it('leave out what the host has barred, here and at that time alone', () => {
    const [key = ''] = keysOf(now())
    const bar = { id: 'wish-1', kind: 'bar', stationId: HERE, targetKey: key, aim: null, things: [] } as const
    const all = { startsAt: null, endsAt: null }
    expect(keysOf(now({ wishes: [{ ...bar, ...all }] }))).not.toContain(key)
    expect(keysOf(now({ wishes: [{ ...bar, ...all, stationId: THERE }] }))).toContain(key)
    expect(keysOf(now({ wishes: [{ ...bar, startsAt: '19:10', endsAt: '19:30' }] }))).not.toContain(key)
    expect(keysOf(now({ wishes: [{ ...bar, startsAt: '19:15', endsAt: '19:30' }] }))).toContain(key)
  })

  it('has nothing for a station that is no telescope', () => {
    const stations = demoNight.stations.map((station) => ({ ...station, telescope: null }))
    const bare = eveningOf({ ...demoNight, stations }, objects)
    const nothing = { on: null, lines: [], asked: [], note: { code: 'now.no-telescope' } }
    expect(goodNow({ ...bare, ...PLAIN, askedKeys: ['moon'] })).toMatchObject(nothing)
  })

  it('names at any time only what stands well for a quarter hour more: over floor and trees, and never while the Sun is up', () => {
    const early = eveningOf({ ...demoNight, opens: '15:30', closes: '18:00' }, objects)
    const evenings = fc.constantFrom(north, south, early)
    let [sunny, listed] = [0, 0]
    fc.assert(
      fc.property(evenings, fc.integer({ min: -30, max: 210 }), fc.nat({ max: 9 }), (evening, minute, place) => {
        const { night, sky } = evening
        const { opensAt, closesAt } = nightHours(night)
        const at = new Date(Math.min(opensAt.getTime() + minute * 60_000, closesAt.getTime() + 1_800_000))
        const row = night.stations.filter(({ telescope }) => telescope !== null)
        const station = row[place % row.length]
        if (!station?.telescope) throw new Error('The demo nights have telescopes')
        const { lines, note } = goodNow({ ...evening, ...PLAIN, stationId: station.id, at })
        expect(lines.length === 0).toBe(note !== null)
        expect(lines.length).toBeLessThanOrEqual(6)
        const isSunUp = sunAtStep(sky, stepAt(sky, at)).altitudeDeg > -0.833
        if (isSunUp) expect(lines).toEqual([])
        sunny += Number(isSunUp)
        listed += lines.length
        for (const line of lines) {
          for (const ms of [0, 450_000, 900_000]) {
            const when = new Date(at.getTime() + ms)
            const spot = targetAt(sky, sky.targetKeys.indexOf(line.targetKey), when)
            expect(placeCause(spot, night.site, station.telescope)).toBeNull()
          }
          if (at < closesAt) expect(line.minutesLeft ?? 15).toBeGreaterThanOrEqual(15)
        }
      }),
      { numRuns: 80 },
    )
    expect(sunny).toBeGreaterThan(0)
    expect(listed).toBeGreaterThan(100)
  })
})

describe('things asked for', () => {
  it('stand in the open first, then come those that rise, and each of the rest says what is in the way', () => {
    const { asked } = now({ askedKeys: ['m13', 'm42', 'saturn', 'nothing-such', 'moon'] })
    expect(asked.map(({ targetKey }) => targetKey).sort()).toEqual(['m13', 'm42', 'moon', 'saturn'])
    const groups = asked.map(({ group }) => group)
    const order = ['good', 'going', 'coming', 'gone']
    const places = groups.map((group) => Math.max(1, order.indexOf(group)))
    expect(places).toEqual([...places].sort((a, b) => a - b))
    for (const { group, cause, fromAt, worth } of asked) {
      if (group === 'good' || group === 'going') continue
      expect(cause).not.toBeNull()
      expect(worth).toBe(0)
      expect(fromAt !== null).toBe(group === 'coming')
    }
    expect(groups).toContain('good')
    expect(new Set(groups).size).toBeGreaterThan(1)
  })
})
