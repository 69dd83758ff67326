import type { DemoEvening } from '../../seed-demo/evening.ts'
import { north } from '../../seed-demo/north.ts'

/** When the public hours of the long night begin. */
export const LONG_NIGHT_BEGINS = '2026-12-17T17:00:00Z'
/** The demo evening, going on for eight hours. */
export const longNight: DemoEvening = { ...north, night: { ...north.night, closes: '02:00' } }
