import { expect, it } from 'vitest'
import { isInClass, schoolClassOf } from '../../server/tours/school-class.ts'
import { demoNight } from '../support/demo-night.ts'

const withClass = (startsAt: string, endsAt: string, groups: number) => ({
  ...demoNight,
  settings: { ...demoNight.settings, schoolClass: { startsAt, endsAt, groups } },
})
const clock = (at: Date | undefined) => at?.toISOString().slice(11, 16)

it('rings once less often than there are groups, after equal times', () => {
  const found = schoolClassOf(withClass('18:00', '19:15', 4))
  expect(found?.bells.map(clock)).toEqual(['17:19', '17:38', '17:56'])
  expect(schoolClassOf(withClass('18:00', '19:00', 1))?.bells).toEqual([])
})

it('holds everything still between its ends, and is none without times', () => {
  const found = schoolClassOf(withClass('18:00', '19:15', 4))
  const at = (time: string) => new Date(`2026-12-17T${time}:00Z`)
  expect(['17:00', '17:15', '18:00', '18:15'].map((time) => isInClass(found, at(time)))).toEqual([
    false,
    true,
    true,
    false,
  ])
  expect(schoolClassOf(demoNight)).toBeNull()
  expect(isInClass(null, at('17:15'))).toBe(false)
})
