import { describe, expect, it } from 'vitest'
import { eveningChance } from '../../server/tours/evening-chance.ts'
import { halfHourCheck } from '../../server/tours/half-hour.ts'
import { instantOf } from '../../server/tours/hours.ts'
import type { Mark, MarkKind } from '../../server/tours/mark.ts'
import type { Spare, Stop } from '../../server/tours/tour.ts'
import { demoNight } from '../support/demo-night.ts'
import { eveningOf } from '../support/evenings.ts'
import { showObject } from '../support/show-objects.ts'

const objects = [
  showObject({
    key: 'albireo',
    kind: 'double',
    raDeg: 292.68,
    decDeg: 27.96,
    componentMagnitudes: [3.1, 5.1],
    separationArcsec: 35,
    colours: ['gold', 'blue'],
  }),
  showObject({ key: 'betelgeuse', kind: 'red-star', raDeg: 88.79, decDeg: 7.41, magnitude: 0.5, bv: 1.85 }),
  showObject({ key: 'capella', raDeg: 79.17, decDeg: 46, magnitude: 0.1 }),
  showObject({ key: 'overhead', raDeg: 21, decDeg: 47.4, magnitude: 2 }),
]
const { sky, chance } = eveningOf(demoNight, objects)
const setups = [{ tubeId: 'telescope-0-tube-0', eyepieceId: 'telescope-0-eyepiece-0', powerX: 27.5, trueFieldDeg: 2.4 }]

const stop = (targetKey: string): Stop => ({
  stationId: 'station-0',
  targetKey,
  aim: 'whole',
  setups,
  startsAt: instantOf(demoNight, '18:00'),
  endsAt: instantOf(demoNight, '19:00'),
  leaveBy: null,
  chance: 1,
  view: 1,
  looks: 60,
  reasons: [],
})
const spare: Spare = {
  targetKey: 'capella',
  stationId: 'station-0',
  setups,
  fromAt: instantOf(demoNight, '18:00'),
  untilAt: instantOf(demoNight, '21:00'),
  cause: { code: 'closing' },
  chance: 1,
}
const tour = { stops: [stop('albireo'), stop('betelgeuse'), stop('overhead'), stop('albireo')], spares: [spare] }

const checkAt = (time: string, previous: string | null = null) =>
  halfHourCheck({
    night: demoNight,
    tour,
    sky,
    chance,
    objects,
    at: instantOf(demoNight, time),
    previousAt: previous === null ? null : instantOf(demoNight, previous),
  })
const lineOf = (time: string, key: string) => checkAt(time).lines.find(({ targetKey }) => targetKey === key)

describe('the half-hour check', () => {
  it('finds a star in the west good, then going, then gone, with the minutes left and what hides it', () => {
    expect(lineOf('18:00', 'albireo')).toMatchObject({
      group: 'good',
      isSpare: false,
      cause: { code: 'skyline', name: 'gym roof' },
    })
    const going = lineOf('19:30', 'albireo')
    expect(going?.group).toBe('going')
    expect(going?.minutesLeft).toBe(
      ((going?.untilAt?.getTime() ?? 0) - instantOf(demoNight, '19:30').getTime()) / 60_000,
    )
    expect(going?.minutesLeft).toBeLessThanOrEqual(30)
    expect(lineOf('20:00', 'albireo')).toMatchObject({ group: 'gone', untilAt: null, minutesLeft: null })
  })

  it('finds a star in the east coming, with the time and the tree it comes from', () => {
    const coming = lineOf('18:30', 'betelgeuse')
    expect(coming).toMatchObject({ group: 'coming', cause: { code: 'skyline', name: 'oak' }, minutesLeft: null })
    const from = coming?.fromAt?.getTime() ?? 0
    expect(lineOf('20:00', 'betelgeuse')?.group).toBe('good')
    expect(from).toBeGreaterThan(instantOf(demoNight, '18:30').getTime())
    expect(from).toBeLessThan(instantOf(demoNight, '20:00').getTime())
  })

  it('says that what stands overhead is too high', () => {
    expect(lineOf('19:30', 'overhead')).toMatchObject({ cause: { code: 'high' } })
  })

  it('gives height in fists, one of sixteen compass points and the height of the eyepiece', () => {
    const line = lineOf('18:00', 'albireo')
    expect(line?.point).toBe(12)
    expect(line?.fists).toBe(4)
    expect(line?.eyepieceHeightCm).toBeGreaterThan(40)
    expect(line?.eyepieceHeightCm).toBeLessThan(110)
  })

  it('knows the height of the eyepiece of a telescope that took the place of the planned one', () => {
    const swapped = {
      ...demoNight,
      stations: demoNight.stations.map((station, i) =>
        i === 0 ? { ...station, telescope: demoNight.stations[3]?.telescope ?? null } : station,
      ),
    }
    const [before, after] = [demoNight, swapped].map((night) => {
      const input = { night, tour, sky, chance: eveningChance(sky, night, objects), objects, previousAt: null }
      const { lines } = halfHourCheck({ ...input, at: instantOf(night, '18:00') })
      return lines.find(({ targetKey }) => targetKey === 'albireo')?.eyepieceHeightCm
    })
    expect(after).toEqual(expect.any(Number))
    expect(after).not.toBe(before)
  })

  it('has each target of a station once, the spares after the programme in their group', () => {
    const { lines } = checkAt('18:00')
    expect(lines).toHaveLength(4)
    const good = lines.filter(({ group }) => group === 'good')
    expect(good.at(-1)).toMatchObject({ targetKey: 'capella', isSpare: true })
  })

  it('keeps the spares that are good in their order, the worthiest first, however soon they leave', () => {
    const ranked = { stops: [], spares: [spare, { ...spare, targetKey: 'albireo' }] }
    const at = instantOf(demoNight, '18:00')
    const { lines } = halfHourCheck({ night: demoNight, tour: ranked, sky, chance, objects, at, previousAt: null })
    expect(lines.map(({ targetKey, group }) => [targetKey, group])).toEqual([
      ['capella', 'good'],
      ['albireo', 'good'],
    ])
    expect(lines[1]?.minutesLeft).toBeGreaterThan(30)
  })

  it('tells what has changed since the check before, and nothing at the first', () => {
    expect(checkAt('20:00').changes).toEqual([])
    expect(checkAt('20:00', '19:00').changes).toEqual(
      expect.arrayContaining([
        { code: 'check.turned-gone', values: { name: 'albireo', station: 'Low refractor' } },
        { code: 'check.turned-good', values: { name: 'betelgeuse', station: 'Low refractor' } },
      ]),
    )
  })
})

describe('what the field has told', () => {
  const told = (time: string, kind: MarkKind, payload: Mark['payload'], stationId: string | null = null): Mark => {
    const at = instantOf(demoNight, time)
    return {
      seq: 1,
      key: `mark-${time}`,
      nightId: 'night',
      stationId,
      kind,
      payload,
      by: 'host',
      receivedAt: at,
      happenedAt: at,
    }
  }
  const checked = (time: string, previous: string | null, marks: readonly Mark[]) =>
    halfHourCheck({
      night: demoNight,
      tour,
      sky,
      chance,
      objects,
      marks,
      at: instantOf(demoNight, time),
      previousAt: previous === null ? null : instantOf(demoNight, previous),
    })
  const groupOf = (time: string, key: string, marks: readonly Mark[]) =>
    checked(time, null, marks).lines.find(({ targetKey }) => targetKey === key)

  it('takes what stands behind clouds for gone, or for coming when they were said to go, and says that it changed', () => {
    const clouds = [told('18:10', 'clouds', { shut: ['w'], minutes: null })]
    expect(groupOf('18:00', 'albireo', clouds)?.group).toBe('good')
    expect(groupOf('18:30', 'albireo', clouds)).toMatchObject({ group: 'gone', cause: { code: 'cloud' } })
    expect(groupOf('18:30', 'capella', clouds)?.cause?.code).not.toBe('cloud')
    expect(checked('18:30', '18:00', clouds).changes.map(({ code, values }) => [code, values?.name])).toContainEqual([
      'check.turned-gone',
      'albireo',
    ])
    const short = [told('18:10', 'clouds', { shut: ['w'], minutes: 30 })]
    expect(groupOf('18:30', 'albireo', short)).toMatchObject({ group: 'coming', fromAt: instantOf(demoNight, '18:40') })
    expect(groupOf('19:00', 'albireo', short)?.group).toBe('good')
  })

  it('takes all that a station would show for gone once it is out', () => {
    const out = [told('18:10', 'station', { is: 'out' }, 'station-0')]
    for (const { group, cause } of checked('18:30', null, out).lines) {
      expect([group, cause?.code]).toEqual(['gone', 'out'])
    }
  })
})
