import { describe, expect, it } from 'vitest'
import { instantOf, nightHours } from '../../server/tours/hours.ts'
import { type Missing, type MissingInput, missingShowpieces } from '../../server/tours/missing.ts'
import { longestBar } from '../../server/tours/missing-barred.ts'
import { showpiecesOf } from '../../server/tours/missing-showpieces.ts'
import { objectTonight } from '../../server/tours/object-tonight.ts'
import { placeCause } from '../../server/tours/offered.ts'
import { targetAt } from '../../server/tours/sky-at.ts'
import { missingText } from '../../server/web/pages/missing.ts'
import { demoNight, southernNight } from '../support/demo-night.ts'
import { builtOn, eveningOf, FOR_TELESCOPES } from '../support/evenings.ts'
import { ENGLISH } from '../support/page-data.ts'

const objects = FOR_TELESCOPES
const MINUTE_MS = 60_000
const EVENINGS = { north: eveningOf(demoNight, objects), south: eveningOf(southernNight, objects) }
const INPUTS = {
  north: { ...EVENINGS.north, tour: builtOn(EVENINGS.north, 5_000) },
  south: { ...EVENINGS.south, tour: builtOn(EVENINGS.south, 5_000) },
}
const inputOf = (name: keyof typeof INPUTS): MissingInput => INPUTS[name]

function missingOf(input: MissingInput): readonly Missing[] {
  const asking = missingShowpieces(input)
  let turn = asking.next()
  while (!turn.done) turn = asking.next()
  return turn.value
}

describe.each(['north', 'south'] as const)('the showpieces of the %s', (name) => {
  it('are all either on the programme or missing with a sentence, and none is both', () => {
    const input = inputOf(name)
    const shown = new Set(input.tour.stops.map(({ targetKey }) => targetKey))
    const all = showpiecesOf(input.night, input.sky, objects).map(({ key }) => key)
    const missing = missingOf(input).map(({ targetKey }) => targetKey)
    expect(all.length).toBeGreaterThan(4)
    expect(missing).toEqual(all.filter((key) => !shown.has(key)))
    for (const it of missingOf(input)) {
      const text = missingText(ENGLISH, it, input.night.site.zone)
      expect(text).toMatch(/^[^:]+: .+\.$/)
      expect(text).not.toMatch(/undefined|\{|missing\./)
    }
  })

  it('say that the host does not want one that is barred everywhere, and no other', () => {
    const input = inputOf(name)
    const [first, ...others] = missingOf(input)
    if (!first) throw new Error('No showpiece is missing')
    const bar = { id: 'wish-1', kind: 'bar', targetKey: first.targetKey, stationId: null, aim: null } as const
    const barred = missingOf({ ...input, wishes: [{ ...bar, startsAt: null, endsAt: null, things: [] }] })
    expect(barred[0]).toMatchObject({ barred: null, reason: { code: 'missing.by-host' } })
    expect(missingText(ENGLISH, barred[0] ?? first, input.night.site.zone)).toContain('the host does not want it')
    expect(barred.slice(1)).toEqual(others)
    const elsewhere = { ...bar, stationId: input.night.stations[0]?.id ?? '', startsAt: null, endsAt: null, things: [] }
    expect(missingOf({ ...input, wishes: [elsewhere] })[0]).toEqual(first)
  })

  it('say the same as the page of the object', () => {
    const input = inputOf(name)
    for (const { targetKey, reason } of missingOf(input)) {
      const object = objects.find(({ key }) => key === targetKey)
      if (!object) throw new Error(`No object ${targetKey}`)
      const [first, second] = objectTonight({ ...input, object, at: null }).verdict
      if (first?.code === 'why.outdone') {
        expect(reason).toEqual({ code: second?.code.replace('why.', 'missing.'), values: first.values })
      } else if (/^why\.(spare|faint|brief|seldom|left-over|unknown)$/.test(first?.code ?? '')) {
        expect(reason.code).toBe(first?.code.replace('why.', 'missing.'))
      } else {
        expect(reason.code).toBe('missing.highest')
      }
    }
  })

  it('are barred only while no telescope of the row can be turned to them', () => {
    const { night, sky } = inputOf(name)
    const { opensAt, closesAt } = nightHours(night)
    for (const { key } of showpiecesOf(night, sky, objects)) {
      const index = sky.targetKeys.indexOf(key)
      const bar = longestBar({ night, sky }, index)
      if (bar === null) continue
      const [from, until] = [(bar.fromAt ?? opensAt).getTime(), (bar.untilAt ?? closesAt).getTime()]
      expect(until - from).toBeGreaterThanOrEqual(15 * MINUTE_MS)
      for (let ms = from + MINUTE_MS; ms < until - MINUTE_MS; ms += 5 * MINUTE_MS) {
        const place = targetAt(sky, index, new Date(ms))
        const able = night.stations.filter(
          ({ telescope }) => telescope !== null && placeCause(place, night.site, telescope) === null,
        )
        expect(able.length, `${key} ${new Date(ms).toISOString()}`).toBe(0)
      }
    }
  })
})

describe('the showpieces of a night', () => {
  const { night, sky } = EVENINGS.north
  const keys = showpiecesOf(night, sky, objects).map(({ key }) => key)

  it('are what people come for and stands above 10 degrees at some time, the most appealing first', () => {
    expect(keys).toEqual(expect.arrayContaining(['moon', 'saturn', 'm42', 'm45', 'ngc869', 'm31']))
    expect(keys).not.toContain('jupiter')
    expect(keys).not.toContain('ngc5139')
    const appeals = keys.map((key) => objects.find((object) => object.key === key)?.appeal ?? 0)
    expect(appeals).toEqual([...appeals].sort((a, b) => b - a))
  })

  it('have at most three stars and doubles among them', () => {
    const plenty = objects.map((object) => (object.kind === 'double' ? { ...object, appeal: 0.9 } : object))
    const kinds = showpiecesOf(night, sky, plenty).map(({ kind }) => kind)
    expect(kinds.filter((kind) => kind === 'double')).toHaveLength(3)
  })
})

describe('why a showpiece is missing', () => {
  it('says how long the Andromeda Galaxy is too high, with its times', () => {
    const { night, sky } = EVENINGS.north
    const bar = longestBar({ night, sky }, sky.targetKeys.indexOf('m31'))
    expect(bar?.cause).toEqual({ code: 'high' })
    expect(bar?.fromAt?.getTime()).toBeGreaterThan(instantOf(demoNight, '18:00').getTime())
    expect(bar?.untilAt?.getTime()).toBeLessThan(instantOf(demoNight, '21:00').getTime())
  })

  it('names the oak that the Orion Nebula comes from behind', () => {
    const { night, sky } = EVENINGS.north
    const bar = longestBar({ night, sky }, sky.targetKeys.indexOf('m42'))
    expect(bar).toMatchObject({ fromAt: null, cause: { code: 'skyline' } })
    expect(bar?.cause.name).toBeTruthy()
  })

  it('says what is shown instead when the programme has one thing only', () => {
    const { stops } = inputOf('north').tour
    const kept = stops.filter(({ targetKey }) => targetKey === 'moon')
    const missing = missingOf({ ...inputOf('north'), tour: { stops: kept, spares: [] } })
    expect(missing.map(({ targetKey }) => targetKey)).toContain('saturn')
    expect(missing.every(({ reason }) => reason.code.startsWith('missing.'))).toBe(true)
  })

  it('is not asked for a row without a telescope', () => {
    const stations = demoNight.stations.map((station) => ({ ...station, telescope: null }))
    const bare = eveningOf({ ...demoNight, stations }, objects)
    expect(missingOf({ ...bare, tour: { stops: [], spares: [] } })).toEqual([])
  })

  it('is written with the bar first, then the reason', () => {
    const oak: Missing = {
      targetKey: 'm42',
      name: 'Orion Nebula',
      barred: { cause: { code: 'skyline', name: 'oak' }, fromAt: null, untilAt: instantOf(demoNight, '20:10') },
      reason: { code: 'missing.highest', values: { degrees: 14 } },
    }
    const zone = demoNight.site.zone
    expect(missingText(ENGLISH, oak, zone)).toBe(
      'Orion Nebula: behind the oak until 20:10, and never higher than 14 degrees.',
    )
    expect(missingText(ENGLISH, { ...oak, barred: null }, zone)).toBe('Orion Nebula: never higher than 14 degrees.')
    const between = {
      cause: { code: 'high' },
      fromAt: instantOf(demoNight, '18:30'),
      untilAt: instantOf(demoNight, '20:25'),
    } as const
    expect(missingText(ENGLISH, { ...oak, barred: between }, zone)).toContain(
      'too high for the telescopes of this row from 18:30 to 20:25',
    )
  })
})
