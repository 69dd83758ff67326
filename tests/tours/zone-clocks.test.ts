import { expect, it } from 'vitest'
import { haveSameClocks } from '../../server/tours/zone-clocks.ts'

const NOW = new Date('2026-11-20T18:00:00Z')

/** Which clocks agree, by the zone database that Node carries. */
it.each([
  ['Europe/Berlin', 'Europe/Berlin', true],
  ['Europe/Berlin', 'Europe/Vienna', true],
  ['Europe/London', 'Europe/Lisbon', true],
  ['Etc/GMT+2', 'America/Noronha', true],
  ['Europe/Berlin', 'Africa/Lagos', false],
  ['Europe/London', 'Africa/Abidjan', false],
  ['Australia/Sydney', 'Australia/Lord_Howe', false],
  ['Australia/Sydney', 'Australia/Brisbane', false],
  ['Asia/Kathmandu', 'Asia/Kolkata', false],
  ['Pacific/Kiritimati', 'Pacific/Honolulu', false],
  // Israel goes over to summer time on the Friday, Greece on the Sunday: two days of the year.
  ['Asia/Jerusalem', 'Europe/Athens', false],
])('%s and %s: the same clocks all year is %s', (zone, other, expected) => {
  expect([haveSameClocks(zone, other, NOW), haveSameClocks(other, zone, NOW)]).toEqual([expected, expected])
})
