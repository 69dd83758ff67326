import { describe, expect, it } from 'vitest'
import { clockTonight } from '../../server/tours/clock-tonight.ts'
import { eveningSpan, instantOf } from '../../server/tours/hours.ts'

const HOURS = { opens: '20:00', closes: '23:00' }

const clockOf = (zone: string, date: string) => {
  const night = { ...HOURS, date, site: { zone } }
  return clockTonight(zone, instantOf(night, HOURS.opens), eveningSpan(night))
}

// The rules of each zone, from memory: the European Union changes at 01:00 UTC on the last Sundays of March and October,
// Lord Howe by half an hour at 2 o'clock on the first Sundays of April (at 15:00 UTC the day before) and October.
describe('the clocks of a night', () => {
  it('go forward in spring, and are set back in autumn', () => {
    expect(clockOf('Europe/Berlin', '2026-03-28')).toEqual({
      offsetMin: 60,
      zoneMin: 60,
      isForward: false,
      changes: true,
      change: { at: new Date('2026-03-29T01:00:00Z'), fromMin: 60, toMin: 120 },
    })
    expect(clockOf('Europe/Berlin', '2026-10-24')).toEqual({
      offsetMin: 120,
      zoneMin: 60,
      isForward: true,
      changes: true,
      change: { at: new Date('2026-10-25T01:00:00Z'), fromMin: 120, toMin: 60 },
    })
    expect(clockOf('Europe/Berlin', '2026-10-25')).toMatchObject({ offsetMin: 60, isForward: false, change: null })
  })

  it('go by half an hour on Lord Howe Island, and are forward in its summer', () => {
    expect(clockOf('Australia/Lord_Howe', '2026-04-04')).toMatchObject({
      offsetMin: 660,
      zoneMin: 630,
      isForward: true,
      change: { at: new Date('2026-04-04T15:00:00Z'), fromMin: 660, toMin: 630 },
    })
    expect(clockOf('Australia/Lord_Howe', '2026-10-03')).toMatchObject({
      isForward: false,
      change: { at: new Date('2026-10-03T15:30:00Z'), fromMin: 630, toMin: 660 },
    })
  })

  it('stand still where they are never changed, by any offset', () => {
    for (const [zone, offsetMin] of [
      ['Asia/Kathmandu', 345],
      ['Pacific/Kiritimati', 840],
      ['Pacific/Pago_Pago', -660],
      ['Africa/Abidjan', 0],
    ] as const) {
      const still = { offsetMin, zoneMin: offsetMin, isForward: false, changes: false, change: null }
      expect(clockOf(zone, '2026-07-10'), zone).toEqual(still)
    }
  })

  it('are forward all summer in a zone that changes', () => {
    expect(clockOf('America/St_Johns', '2026-07-10')).toMatchObject({
      offsetMin: -150,
      zoneMin: -210,
      isForward: true,
      change: null,
    })
  })
})
