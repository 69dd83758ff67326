import type { Night } from '../../tours/night.ts'
import type { Words } from '../../words/words.ts'
import { placeText } from './place-text.ts'

/** The host's four calls in the order of the evening, with when each is made. */
export interface FixedCall {
  readonly call: string
  readonly when: string
}

/** A line of the emergency card; `value` is null where it is to be filled in by hand. */
export interface EmergencyLine {
  readonly label: string
  readonly value: string | null
}

/** A rule of safety: its name in a word, and what to do. */
export interface SafetyRule {
  readonly name: string
  readonly text: string
}

const SAFETY = ['sun', 'lasers', 'cables', 'children', 'cold'] as const
/** While the gear goes up; the Sun has its own place there. */
const SET_UP_SAFETY = ['heavy', 'cables', 'lasers', 'children', 'cold'] as const
const CALLS = ['ten', 'line', 'cloud', 'lights'] as const

/** What holds on every field, for the host's own sheet. */
export const safetyRules = (words: Words): readonly SafetyRule[] => SAFETY.map((key) => safetyRule(words, key))

/** What holds while the gear goes up. */
export const setUpSafety = (words: Words): readonly SafetyRule[] => SET_UP_SAFETY.map((key) => safetyRule(words, key))

const safetyRule = (words: Words, key: string): SafetyRule => ({
  name: words.say(`safety.${key}-name`),
  text: words.say(`safety.${key}`),
})

export const fixedCalls = (words: Words): readonly FixedCall[] =>
  CALLS.map((key) => ({ call: words.say(`call.${key}`), when: words.say(`call.${key}-when`) }))

/** What a rescuer asks first; the position is known, the rest is written in by hand. */
export function emergencyLines(words: Words, { site }: Pick<Night, 'site'>): readonly EmergencyLine[] {
  const blank = (key: string): EmergencyLine => ({ label: words.say(`emergency.${key}`), value: null })
  return [
    blank('number'),
    blank('address'),
    { label: words.say('emergency.place'), value: placeText(words, site) },
    blank('access'),
    blank('first-aid'),
    blank('who'),
  ]
}
