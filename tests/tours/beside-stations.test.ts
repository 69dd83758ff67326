import { describe, expect, it } from 'vitest'
import type { BesideHalf } from '../../server/tours/beside-lines.ts'
import { instantOf } from '../../server/tours/hours.ts'
import type { Night } from '../../server/tours/night.ts'
import { passesIn } from '../../server/tours/own-pass.ts'
import type { Stop } from '../../server/tours/tour.ts'
import { besideOf, EVERYTHING, halvesOf, linesOf, withBeside } from '../support/beside-night.ts'
import { demoNight, southernNight } from '../support/demo-night.ts'
import { builtOn, eveningOf } from '../support/evenings.ts'
import { A_PASS_DRAFT, ownThing } from '../support/own-object-data.ts'

const mixed = withBeside(demoNight)
const at = (text: string): Date => instantOf(demoNight, text)

const stopOf = (stationId: string, targetKey: string, from: string, to: string, more: Partial<Stop> = {}): Stop => ({
  stationId,
  targetKey,
  aim: 'whole',
  setups: [{ tubeId: 'telescope-2-tube-0', eyepieceId: 'telescope-2-eyepiece-0', powerX: 42, trueFieldDeg: 1.7 }],
  startsAt: at(from),
  endsAt: at(to),
  leaveBy: null,
  chance: 1,
  view: 1,
  looks: 30,
  reasons: [],
  ...more,
})
/** A programme written by hand: the 250 mm shows what newcomers see worst. */
const STOPS: readonly Stop[] = [
  stopOf('station-0', 'moon', '18:00', '21:00'),
  stopOf('station-1', 'saturn', '18:00', '21:00', { view: 0.85 }),
  stopOf('station-2', 'm57', '18:00', '18:45', { chance: 0.86, view: 0.5 }),
  stopOf('station-2', 'm15', '18:45', '21:00', { chance: 0.97, view: 0.5 }),
  stopOf('station-3', 'hip95947', '18:00', '19:30'),
  stopOf('station-3', 'm45', '19:30', '21:00'),
]

const halves = besideOf(mixed, { stops: STOPS })
/** The same stations without a programme. */
const alone = besideOf(mixed)
const linesAt = (id: string, time: string) =>
  halvesOf(halves, id).find(({ fromAt }) => fromAt.getTime() === at(time).getTime())?.lines ?? []

describe('a bare-eye guide beside a programme', () => {
  it('points at what the telescopes show, and says which', () => {
    const all = linesOf(halvesOf(halves, 'bare-eye'), 'sight')
    const pointed = all.filter(({ line }) => line.remarks[0]?.code === 'beside.shown-at')
    for (const { half, line } of pointed) {
      const station = mixed.stations.find(({ name }) => name === line.remarks[0]?.values?.station)
      const shown = STOPS.filter(
        (stop) => stop.stationId === station?.id && stop.startsAt < half.toAt && stop.endsAt > half.fromAt,
      )
      expect(shown.map(({ targetKey }) => targetKey)).toContain(line.targetKey)
    }
    expect(new Set(pointed.map(({ line }) => line.targetKey))).toEqual(new Set(['moon', 'saturn', 'hip95947', 'm45']))
    const unsaid = linesOf(halvesOf(alone, 'bare-eye'), 'sight')
    expect(unsaid.flatMap(({ line }) => line.remarks).filter(({ code }) => code === 'beside.shown-at')).toEqual([])
  })

  it('leads from a bright star to what stands near it in a telescope', () => {
    const vega = linesAt('bare-eye', '18:00').find((line) => line.what === 'sight' && line.targetKey === 'hip91262')
    expect(vega).toMatchObject({
      remarks: [
        { code: 'beside.close-left', values: { station: 'Big reflector', name: 'Ring Nebula' } },
        { code: 'beside.colour-white' },
      ],
    })
  })
})

describe('a screen', () => {
  const picturesOf = (all: readonly BesideHalf[]) => linesOf(halvesOf(all, 'screen'), 'picture').map(({ line }) => line)

  it('shows what newcomers see worst then, and why', () => {
    expect(linesAt('screen', '18:00')).toEqual([
      {
        what: 'picture',
        targetKey: 'm57',
        aim: 'whole',
        remarks: [{ code: 'beside.screen-hard', values: { station: 'Big reflector', newcomers: 86 } }],
      },
    ])
    const m15 = picturesOf(halves).find(({ targetKey }) => targetKey === 'm15')
    expect(m15?.remarks).toEqual([{ code: 'beside.screen-small', values: { station: 'Big reflector' } }])
  })

  it('goes over to showpieces that are not up or hidden, never the same twice running', () => {
    const pictures = picturesOf(halves)
    expect(pictures).toHaveLength(6)
    for (const [i, { targetKey }] of pictures.slice(1).entries()) expect(targetKey).not.toBe(pictures[i]?.targetKey)
    const hidden = picturesOf(alone)
    const jupiter = hidden.find(({ targetKey }) => targetKey === 'jupiter')
    expect(jupiter?.remarks).toEqual([{ code: 'beside.screen-late', values: { time: '22:41' } }])
    const keys = hidden.map(({ targetKey }) => targetKey)
    expect(new Set(keys).size).toBe(6)
    expect(keys).not.toContain('moon')
  })

  it('says so when nothing needs a picture', () => {
    const none = besideOf(mixed, { objects: EVERYTHING.filter(({ kind }) => kind === 'star') })
    for (const half of halvesOf(none, 'screen'))
      expect(half).toMatchObject({ lines: [], note: { code: 'beside.no-picture' } })
  })
})

describe('a question table', () => {
  it('names every stop of every telescope with its part of the half hour, in the order of the row', () => {
    const elsewhere = linesAt('questions', '18:30').filter((line) => line.what === 'elsewhere')
    expect(elsewhere.slice(0, 5).map(({ stationId, targetKey }) => [stationId, targetKey])).toEqual([
      ['station-0', 'moon'],
      ['station-1', 'saturn'],
      ['station-2', 'm57'],
      ['station-2', 'm15'],
      ['station-3', 'hip95947'],
    ])
    expect(elsewhere[2]).toMatchObject({ fromAt: at('18:30'), toAt: at('18:45') })
    expect(elsewhere[3]).toMatchObject({ fromAt: at('18:45'), toAt: at('19:00') })
  })

  it('names the first thing of the other stations too, and stands where it stands in the row', () => {
    const order = ['questions', 'bare-eye', 'binoculars', 'screen'] as const
    const turned = besideOf(withBeside(demoNight, order), { stops: STOPS })
    expect([...new Set(turned.map(({ stationId }) => stationId))]).toEqual(order)
    for (const half of halvesOf(turned, 'questions')) {
      const told = half.lines.flatMap((line) => (line.what === 'elsewhere' ? [line] : []))
      for (const id of ['bare-eye', 'binoculars', 'screen']) {
        const [first] =
          halvesOf(turned, id).find(({ fromAt }) => fromAt.getTime() === half.fromAt.getTime())?.lines ?? []
        expect(told.filter(({ stationId }) => stationId === id)).toHaveLength(1)
        expect(first).toMatchObject({ targetKey: told.find(({ stationId }) => stationId === id)?.targetKey })
      }
    }
  })

  it('has one question ready for each half hour, about what is shown first, and none twice while others are left', () => {
    const prompts = linesOf(halvesOf(halves, 'questions'), 'prompt').map(({ line }) => line.remark.code)
    expect(prompts).toHaveLength(6)
    expect(new Set(prompts).size).toBe(6)
    expect(prompts.slice(0, 2)).toEqual(['beside.ask-moon', 'beside.ask-planet'])
    const others = linesOf(halvesOf(alone, 'questions'), 'prompt').map(({ line }) => line.remark.code)
    expect(new Set(others)).toEqual(
      new Set(['beside.ask-power', 'beside.ask-picture', 'beside.ask-far', 'beside.ask-cost']),
    )
  })
})

describe('what passes over', () => {
  const thing = (from: string, to: string, magnitude = -3.1, night: Night = demoNight) =>
    ownThing({
      ...A_PASS_DRAFT,
      magnitude,
      fromAt: instantOf(night, from).toISOString(),
      toAt: instantOf(night, to).toISOString(),
    })
  /** A pass and the next thing in its half hour need no more than a few things beside them. */
  const objects = EVERYTHING.filter((_, i) => i % 8 === 0)
  const passLines = (night: Night, things: readonly ReturnType<typeof thing>[], id: string) => {
    const row = withBeside(night, ['bare-eye', 'questions'])
    return linesOf(halvesOf(besideOf(row, { objects, passes: passesIn(night, things) }), id), 'pass')
  }

  it('stands at its minute in one half hour, before the rest, with where from and where to', () => {
    for (const id of ['bare-eye', 'questions']) {
      const found = passLines(demoNight, [thing('18:58', '19:04')], id)
      expect(found.map(({ half }) => half.fromAt)).toEqual([at('18:30')])
      expect(found[0]?.half.lines[0]).toEqual({
        what: 'pass',
        targetKey: 'own-bare-eye',
        fromAt: at('18:58'),
        toAt: at('19:04'),
        fromPoint: 12,
        toPoint: 3,
      })
    }
  })

  it('is told at the opening when it has come up before', () => {
    expect(passLines(demoNight, [thing('17:57', '18:03')], 'bare-eye').map(({ half }) => half.fromAt)).toEqual([
      at('18:00'),
    ])
  })

  it('is left out while the Sun is up, and when it is too faint for that sky', () => {
    const june: Night = { ...demoNight, date: '2026-06-20', opens: '20:00', closes: '23:00' }
    expect(passLines(june, [thing('20:30', '20:36', -3, june)], 'bare-eye')).toEqual([])
    expect(passLines(june, [thing('22:30', '22:36', -3, june)], 'bare-eye')).toHaveLength(1)
    expect(passLines(demoNight, [thing('19:00', '19:06', 5.5)], 'bare-eye')).toEqual([])
  })
})

describe('a night without telescopes', () => {
  const bare = withBeside({ ...demoNight, stations: [] })

  it('has all its stations busy without a programme', () => {
    const all = besideOf(bare)
    expect(all).toHaveLength(24)
    expect(all.filter(({ lines }) => lines.length === 0)).toEqual([])
  })
})

describe('beside a programme that was built', () => {
  it.each([
    ['north', demoNight],
    ['south', southernNight],
  ])('in the %s the telescopes are told as they are, and their targets are pointed at', (_, plain) => {
    const night = withBeside(plain)
    const { stops } = builtOn(eveningOf(plain), 3_000)
    const all = besideOf(night, { stops })
    const told = linesOf(halvesOf(all, 'questions'), 'elsewhere').filter(({ line }) =>
      line.stationId.startsWith('station'),
    )
    for (const stop of stops) {
      const parts = told.filter(({ line }) => line.stationId === stop.stationId && line.targetKey === stop.targetKey)
      const minutes = parts.reduce((sum, { line }) => sum + line.toAt.getTime() - line.fromAt.getTime(), 0)
      expect(minutes).toBeGreaterThanOrEqual(stop.endsAt.getTime() - stop.startsAt.getTime())
    }
    const remarks = linesOf(halvesOf(all, 'bare-eye'), 'sight').flatMap(({ line }) => line.remarks)
    expect(remarks.filter(({ code }) => code === 'beside.shown-at').length).toBeGreaterThan(3)
  })
})
