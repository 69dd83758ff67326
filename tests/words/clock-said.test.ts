import { describe, expect, it } from 'vitest'
import { clockSaid } from '../../server/words/clock-said.ts'

describe('a clock time as people type it', () => {
  it.each([
    ['18:00', '18:00'],
    [' 18.30 ', '18:30'],
    ['18h30', '18:30'],
    ['18h', '18:00'],
    ['18 Uhr', '18:00'],
    ['18:15 Uhr', '18:15'],
    ['6 pm', '18:00'],
    ['6:30 p.m.', '18:30'],
    ['12 am', '00:00'],
    ['12:05 PM', '12:05'],
    ['00:30', '00:30'],
  ])('%s is %s', (typed, clock) => {
    expect(clockSaid(typed)).toBe(clock)
  })

  it.each(['', '6', '18', '6:30', '25:00', '18:60', '13 pm', '0 am', '18:3', 'six', '18:00:00', '-6 pm', '<b>'])(
    '%j stays as it is, for the form to say so',
    (typed) => {
      expect(clockSaid(typed)).toBe(typed)
    },
  )
})
