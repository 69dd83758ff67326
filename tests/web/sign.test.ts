import { describe, expect, it } from 'vitest'
import { WANTED_CAPITAL_MM } from '../../server/drawings/sign-name.ts'
import { signs } from '../../server/web/pages/sign.ts'
import { HOST, NAMES } from '../support/page-data.ts'
import { A_FULL_PRINT, AN_EMPTY_PRINT } from '../support/paper-pages.ts'

const named = (name: string) => {
  const names = { ...NAMES, nameOf: () => name }
  const [sign] = signs(HOST, { ...A_FULL_PRINT, isStale: false, names }).signs
  if (!sign) throw new Error('The night of the tests has a stop')
  return sign
}

describe('a sign for a telescope', () => {
  it('is one for every stop, with the station, from when to when, and what will be seen', () => {
    const { signs: made, version } = signs(HOST, A_FULL_PRINT)
    expect(made).toHaveLength(A_FULL_PRINT.tour.stops.length)
    expect(made[0]).toMatchObject({ station: 'By the oak', when: '18:30 to 19:30', see: 'A round, grainy glow.' })
    expect(version).toContain('Moon over the meadow')
  })

  it('has capitals of 45 mm where the name allows', () => {
    for (const name of ['Moon', 'Saturn', 'Albireo', 'Ring Nebula']) {
      expect(named(name).name.capitalMm, name).toBeGreaterThanOrEqual(WANTED_CAPITAL_MM)
      expect(named(name).isWide, name).toBe(true)
    }
  })

  it('stands upright for a name of several short words', () => {
    expect(named('The old man of the sea').isWide).toBe(false)
  })

  it('says only the first sentence of what will be seen', () => {
    const story = { ...A_FULL_PRINT.names.story('m13'), see: 'A round glow. Its edge is grainy.' }
    const names = { ...NAMES, story: () => story as ReturnType<typeof NAMES.story> }
    expect(signs(HOST, { ...A_FULL_PRINT, names }).signs[0]?.see).toBe('A round glow.')
  })

  it('says on an evening without stops that there are none', () => {
    const { signs: made, emptyText } = signs(HOST, AN_EMPTY_PRINT)
    expect(made).toEqual([])
    expect(emptyText).toBe('Nothing is planned here.')
  })
})
