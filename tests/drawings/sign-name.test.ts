import { describe, expect, it } from 'vitest'
import { lineEm } from '../../server/drawings/letter-widths.ts'
import { signName, WANTED_CAPITAL_MM } from '../../server/drawings/sign-name.ts'

const ROOM = { widthMm: 254, heightMm: 130 }
const CAPITAL_EM = 0.719

describe('a name on a sign', () => {
  it('is read from five metres where it is short enough', () => {
    for (const name of ['Moon', 'Saturn', 'M15', 'Albireo'])
      expect(signName(name, ROOM).capitalMm, name).toBeGreaterThanOrEqual(WANTED_CAPITAL_MM)
  })

  it('takes a second line when that makes it larger, and breaks between words', () => {
    expect(signName('Ring Nebula', ROOM).lines).toEqual(['Ring', 'Nebula'])
    expect(signName('Saturn', ROOM).lines).toEqual(['Saturn'])
    expect(signName('Great cluster in Hercules', ROOM).lines.join(' ')).toBe('Great cluster in Hercules')
  })

  it('makes sixty letters as large as fits, in four lines: capitals of 21 mm', () => {
    const name = 'The very long name of a cluster of stars that has 60 letters'
    expect(name).toHaveLength(60)
    const { lines, capitalMm } = signName(name, ROOM)
    expect(lines).toHaveLength(4)
    expect(capitalMm).toBeCloseTo(21.5, 1)
  })

  it('stays inside its room', () => {
    for (const name of ['W', 'Moon', 'Omega Centauri', 'Donaudampfschifffahrtsgesellschaftskapitaenswitwe', 'i l f']) {
      const { lines, capitalMm, heightMm } = signName(name, ROOM)
      const sizeMm = capitalMm / CAPITAL_EM
      for (const line of lines) expect(lineEm(line, true) * sizeMm, name).toBeLessThanOrEqual(ROOM.widthMm + 0.001)
      expect(heightMm, name).toBeLessThanOrEqual(ROOM.heightMm + 0.001)
    }
  })

  it('leaves room for accents and for what hangs below the line', () => {
    const tall = { widthMm: 2000, heightMm: 100 }
    const plain = signName('Moon', tall).capitalMm
    expect(signName('Äon', tall).capitalMm).toBeLessThan(plain)
    expect(signName('Young', tall).capitalMm).toBeLessThan(plain)
  })

  it('is larger on a larger sheet', () => {
    const small = signName('Saturn', { widthMm: 100, heightMm: 130 })
    expect(signName('Saturn', ROOM).capitalMm / small.capitalMm).toBeCloseTo(2.54, 5)
  })
})
