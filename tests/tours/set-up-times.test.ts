import { describe, expect, it } from 'vitest'
import { type SetUpEvening, setUpTimes } from '../../server/tours/set-up-times.ts'

const at = (text: string): Date => new Date(`2026-12-${text}:00Z`)
const EVENING: SetUpEvening = {
  sunsetAt: at('17T16:35'),
  starsFromAt: at('17T17:11'),
  opensAt: at('17T18:00'),
  closesAt: at('17T21:00'),
}
const clock = (evening: SetUpEvening) =>
  setUpTimes(evening).map(({ step, at: time }) => `${step} ${time.toISOString().slice(11, 16)}`)

describe('the times of setting up', () => {
  it('go from an hour and a half before sunset to half an hour after the closing', () => {
    expect(clock(EVENING)).toEqual([
      'arrive 15:05',
      'level 15:20',
      'balance 15:35',
      'finder 15:50',
      'sunset 16:35',
      'align 17:11',
      'check 17:26',
      'welcome 17:50',
      'first 18:00',
      'last 20:50',
      'sweep 21:30',
    ])
  })

  it('have no sunset and no star to align on in a polar summer', () => {
    const steps = setUpTimes({ ...EVENING, sunsetAt: null, starsFromAt: null }).map(({ step }) => step)
    expect(steps).not.toContain('sunset')
    expect(steps).not.toContain('align')
    expect(steps[0]).toBe('arrive')
  })

  it('begin three hours before an opening after midnight, long after sunset, and align when set up', () => {
    const late = clock({ ...EVENING, opensAt: at('18T00:30'), closesAt: at('18T03:00') })
    expect(late[0]).toBe('arrive 21:30')
    expect(late).toContain('align 22:15')
    expect(late.join()).not.toContain('sunset')
  })

  it('leave an hour to set up where the gate opens before sunset', () => {
    const early = setUpTimes({ ...EVENING, opensAt: at('17T15:00') })
    expect(early[0]).toEqual({ step: 'arrive', at: at('17T14:00') })
    const times = early.map(({ at: time }) => time.getTime())
    expect(times).toEqual(times.toSorted((a, b) => a - b))
  })
})
