import { describe, expect, it } from 'vitest'
import { DEFAULT_CONDITIONS, pupilOfAge } from '../../server/sight/conditions.ts'
import { eveningSky } from '../../server/tours/evening.ts'
import { chanceKey, conditionsOf, eveningChance } from '../../server/tours/evening-chance.ts'
import type { Night } from '../../server/tours/night.ts'
import { draftOf } from '../../server/tours/night-draft.ts'
import { nightProblems } from '../../server/tours/problems.ts'
import { demoNight } from '../support/demo-night.ts'
import { showObject } from '../support/show-objects.ts'

const objects = [
  showObject({ key: 'm13', kind: 'globular', raDeg: 250.42, decDeg: 36.46, magnitude: 5.8 }),
  showObject({ key: 'm31', kind: 'galaxy', raDeg: 10.68, decDeg: 41.27, magnitude: 3.4 }),
]
const sky = eveningSky(demoNight, objects)
const nightWith = (settings: Partial<Night['settings']>): Night => ({
  ...demoNight,
  settings: { ...demoNight.settings, ...settings },
})
const sum = (settings: Partial<Night['settings']>): number =>
  eveningChance(sky, nightWith(settings), objects).view.reduce((total, value) => total + value, 0)

describe('the people of a night', () => {
  it('are a mixed public in the dark where the host says nothing', () => {
    const { pupilMm, streetLight } = conditionsOf(demoNight)
    expect({ pupilMm, streetLight }).toEqual({ pupilMm: DEFAULT_CONDITIONS.pupilMm, streetLight: false })
  })

  it('have the pupils of their age', () => {
    expect(conditionsOf(nightWith({ visitorYears: 75 })).pupilMm).toBe(pupilOfAge(75))
    expect(conditionsOf(nightWith({ visitorYears: 9 })).pupilMm).toBe(pupilOfAge(20))
  })

  it('see less under a lamp, and the table of chances is another one', () => {
    expect(conditionsOf(nightWith({ streetLight: true })).streetLight).toBe(true)
    expect(sum({ streetLight: true })).toBeLessThan(sum({}))
    const keys = [{}, { streetLight: true }, { visitorYears: 75 }].map((change) => chanceKey(sky, nightWith(change)))
    expect(new Set(keys).size).toBe(3)
  })
})

describe('the settings of a night as typed in', () => {
  const wrong = (changes: object) => {
    const draft = draftOf(demoNight)
    const settings = { ...draft.settings, ...changes }
    return nightProblems({ ...draft, settings }, new Date('2026-12-01T12:00:00Z'), demoNight.site.zone)
  }

  it('may leave out who looks, as they did before it was asked', () => {
    expect(wrong({ streetLight: undefined, visitorYears: undefined })).toEqual([])
    expect(wrong({ streetLight: true, visitorYears: 90 })).toEqual([])
    expect(wrong({ visitorYears: 5 })).toEqual([])
  })

  it('take an age from 5 to 90 years, and yes or no for the lamp', () => {
    const range = { field: 'settings.visitorYears', key: 'problem.range', values: { minimum: 5, maximum: 90 } }
    expect(wrong({ visitorYears: 4 })).toEqual([range])
    expect(wrong({ visitorYears: 91 })).toEqual([range])
    expect(wrong({ visitorYears: Number.NaN })).toMatchObject([{ field: 'settings.visitorYears', key: 'problem.type' }])
    expect(wrong({ streetLight: 'yes' })).toMatchObject([
      { field: 'settings.streetLight', key: 'problem.type-boolean' },
    ])
  })
})
