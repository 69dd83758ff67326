import { describe, expect, it } from 'vitest'
import { chanceOf } from '../../server/sight/chance.ts'
import { seenAtStep } from '../../server/tours/evening-chance.ts'
import { siteLearning, trialsOf } from '../../server/tours/learning.ts'
import type { Mark, MarkKind } from '../../server/tours/mark.ts'
import { stepAt } from '../../server/tours/sky-at.ts'
import { demoNight } from '../support/demo-night.ts'
import { eveningOf, FOR_TELESCOPES } from '../support/evenings.ts'

const objects = FOR_TELESCOPES
const at = (time: string) => new Date(`2026-12-17T${time}:00Z`)

let seq = 0
const mark = (kind: MarkKind, payload: Mark['payload'], time: string, stationId = 'station-1'): Mark => ({
  seq: ++seq,
  key: `mark-${seq}-key`,
  nightId: demoNight.id,
  stationId,
  kind,
  payload,
  by: 'Jonas',
  receivedAt: at(time),
  happenedAt: at(time),
})
const saw = (targetKey: string, who: string, time: string, stationId?: string) =>
  mark('seen', { targetKey, who }, time, stationId)
const trials = (...marks: Mark[]) => trialsOf({ night: demoNight, marks }, objects)

describe('a word of who saw what', () => {
  it('is set against the margin behind the chance that the programme reckoned with, at that station and moment', () => {
    const { sky, chance: table } = eveningOf(demoNight, objects)
    for (const [key, time, station] of [
      ['m57', '17:30', 1],
      ['m33', '18:20', 2],
      ['m31', '19:00', 0],
      ['m1', '19:30', 3],
    ] as const) {
      const [trial] = trials(saw(key, 'half', time, `station-${station}`))
      if (trial === undefined) throw new Error(`Nothing is known of ${key}`)
      const column = table.candidates.findIndex(({ targetKey }) => targetKey === key)
      const { chance } = seenAtStep(table, station, column, stepAt(sky, at(time)))
      const lightMag = trial.lightMag - 2.5 * Math.log10(demoNight.settings.noviceFactor)
      expect(chanceOf(lightMag, trial.otherMag, trial.dazzle)).toBeCloseTo(chance, 5)
      expect(chance).toBeGreaterThan(0.01)
      expect(chance).toBeLessThan(0.999)
    }
  })

  it('does not depend on the factor that the night went by, but for the eyepiece that the night chose with it', () => {
    const marks = [saw('m57', 'they', '17:30')]
    const strict = { ...demoNight, settings: { ...demoNight.settings, noviceFactor: 5 } }
    const [usual, other] = [trials(...marks)[0], trialsOf({ night: strict, marks }, objects)[0]]
    expect(Math.abs((other?.lightMag ?? 0) - (usual?.lightMag ?? 9))).toBeLessThan(0.1)
  })

  it('says less of haze than of people: a hazier night has a smaller margin', () => {
    const marks = [saw('m57', 'they', '17:30')]
    const hazy = { ...demoNight, settings: { ...demoNight.settings, extinctionMag: 0.6 } }
    expect(trialsOf({ night: hazy, marks }, objects)[0]?.lightMag).toBeLessThan(
      (trials(...marks)[0]?.lightMag ?? 0) - 0.2,
    )
  })

  it('counts no more once it is taken back, and again when the undo is', () => {
    const seen = saw('m57', 'not', '17:30')
    const undo = mark('undo', { markKey: seen.key }, '17:31')
    const redo = mark('undo', { markKey: undo.key }, '17:32')
    expect(trials(seen, undo)).toEqual([])
    expect(trials(seen, undo, redo)).toHaveLength(1)
  })

  it('is left out where the model has no answer: no such thing, no such station, by day, below the horizon', () => {
    expect(
      trials(
        saw('nothing-of-the-kind', 'they', '17:30'),
        saw('m57', 'they', '17:30', 'station-9'),
        saw('m57', 'they', '09:00'),
        saw('jupiter', 'they', '17:30'),
        mark('shown', { targetKey: 'm57' }, '17:30'),
      ),
    ).toEqual([])
  })
})

describe('what a site has learnt', () => {
  const seen = [
    ...['m57', 'm33', 'm1', 'm27', 'm15'].map((key) => saw(key, 'they', '17:40', 'station-1')),
    ...['m57', 'm33', 'm31', 'm36', 'm37'].map((key) => saw(key, 'not', '17:50', 'station-2')),
    saw('m57', 'they', '17:45', 'station-9'),
    saw('moon', 'they', '17:40', 'station-0'),
  ]
  const night = { night: demoNight, marks: seen }
  const { site, telescopes, marks, nights } = siteLearning([night, { ...night, marks: [] }], trials(...seen))

  it('counts every word and every night that has one, and which of them tell', () => {
    expect([marks, nights, site.trials]).toEqual([12, 1, 11])
    expect(site.telling).toBeGreaterThan(3)
    expect(site.telling).toBeLessThan(11)
  })

  it('is told for each telescope by itself, by name', () => {
    expect(telescopes.map(({ name, trials: count }) => [name, count])).toEqual([
      ['102 mm refractor', 1],
      ['150 mm reflector', 5],
      ['250 mm reflector', 5],
    ])
    const [, seeing, blind] = telescopes
    expect(seeing?.factor).toBeLessThan(site.factor)
    expect(blind?.factor).toBeGreaterThan(site.factor)
  })
})
