import { describe, expect, it } from 'vitest'
import { declinationDeg } from '../../server/sky/magnetic.ts'

// WMM2025 Technical Report (NOAA/NCEI and BGS), Table 6: year, height km, latitude, longitude east, X and Y in nT, and
// declination D, all twelve rows. The table's values were taken down from a secondary source.
const TABLE_6 = [
  [2025, 0, 80, 0, 6521.6, 145.9, 1.28],
  [2025, 0, 0, 120, 39677.8, -109.6, -0.16],
  [2025, 0, -80, 240, 6117.5, 15751.9, 68.78],
  [2025, 100, 80, 0, 6216.0, 92.4, 0.85],
  [2025, 100, 0, 120, 37688.6, -96.2, -0.15],
  [2025, 100, -80, 240, 5907.6, 14780.3, 68.21],
  [2027.5, 0, 80, 0, 6500.8, 294.5, 2.59],
  [2027.5, 0, 0, 120, 39701.6, -167.4, -0.24],
  [2027.5, 0, -80, 240, 6200.7, 15730.3, 68.49],
  [2027.5, 100, 80, 0, 6196.7, 233.8, 2.16],
  [2027.5, 100, 0, 120, 37711.5, -148.7, -0.23],
  [2027.5, 100, -80, 240, 5984.0, 14760.1, 67.93],
] as const

const instantOf = (year: number): Date => new Date(year === 2025 ? '2025-01-01T00:00:00Z' : '2027-07-02T12:00:00Z')

describe('the World Magnetic Model 2025', () => {
  it.each(TABLE_6)('in %d at %d km over %d, %d', (year, heightKm, latitudeDeg, longitudeDeg, x, y, declination) => {
    const needle = declinationDeg({ latitudeDeg, longitudeDeg, heightM: 1000 * heightKm }, instantOf(year))
    expect(needle.isWithin).toBe(true)
    expect(needle.declinationDeg).toBe(declination)
    // The report rounds X, Y and H each to 0.1 nT.
    expect(Math.abs(needle.levelNanotesla - Math.hypot(x, y))).toBeLessThan(0.15)
  })

  it('says for which days it was not made', () => {
    const place = { latitudeDeg: 48.2, longitudeDeg: 11.6, heightM: 520 }
    const isWithin = (at: string) => declinationDeg(place, new Date(at)).isWithin
    expect(isWithin('2024-12-31T23:59:59Z')).toBe(false)
    expect(isWithin('2025-01-01T00:00:00Z')).toBe(true)
    expect(isWithin('2029-12-31T23:59:59Z')).toBe(true)
    expect(isWithin('2030-01-01T00:00:00Z')).toBe(false)
    const last = declinationDeg(place, new Date('2029-12-31T12:00:00Z'))
    expect(declinationDeg(place, new Date('2041-06-01T00:00:00Z'))).toEqual({ ...last, isWithin: false })
  })
})
