import { describe, expect, it } from 'vitest'
import { createWords, UNITS } from '../../server/words/words.ts'

const inUnits = UNITS.map((units) => createWords({}, { language: 'en', hours12: false, units }))

describe('lengths', () => {
  it('are said in the units of the reader, or in both', () => {
    expect(inUnits.map((words) => words.length(130, 'centimeter'))).toEqual(['130 cm', '51 in', '130 cm (51 in)'])
    expect(inUnits.map((words) => words.length(450, 'meter'))).toEqual(['450 m', '1,476 ft', '450 m (1,476 ft)'])
    expect(inUnits.map((words) => words.length(4, 'kilometer'))).toEqual(['4 km', '2.5 mi', '4 km (2.5 mi)'])
  })

  it('have a decimal below ten alone, and follow the language', () => {
    const german = createWords({}, { language: 'de', hours12: false, units: 'metric' })
    expect([german.length(9.25, 'meter'), german.length(1234.5, 'meter')]).toEqual(['9,3 m', '1.235 m'])
  })
})
