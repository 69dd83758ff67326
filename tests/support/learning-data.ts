import { newcomerFactor } from '../../server/sight/newcomer.ts'
import type { FactorInUse, SiteLearning } from '../../server/tours/learning.ts'
import { A_TELESCOPE } from './field-data.ts'

const FACTOR = { ...newcomerFactor([]), factor: 3.12, low: 2.44, high: 3.96, trials: 31, telling: 23 }

/** Thirty-one taps on two nights, of which twenty-three tell something. */
export const A_LEARNING: SiteLearning = {
  site: FACTOR,
  telescopes: [{ ...FACTOR, telescopeId: A_TELESCOPE.id, name: A_TELESCOPE.name }],
  marks: 31,
  nights: 2,
}
export const NOTHING_LEARNT: SiteLearning = { site: newcomerFactor([]), telescopes: [], marks: 0, nights: 0 }

export const AN_IN_USE: FactorInUse = {
  factor: 3.3,
  low: 2.5,
  high: 4.2,
  marks: 12,
  setAt: new Date('2026-11-13T23:30:00Z'),
}
