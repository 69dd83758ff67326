import type { Words } from './words.ts'

/** One of sixteen compass points by its letters, `SSW`; 0 is north, 4 east. */
export const pointShort = (words: Words, point: number): string =>
  words.say(`drawing.point-${((point % 16) + 16) % 16}`)

/** A number to the half below, `2½`. */
export function halvesText(words: Words, value: number): string {
  const whole = Math.max(0, Math.floor(value))
  if (value - whole < 0.5) return words.number(whole)
  return whole === 0 ? '½' : `${words.number(whole)}½`
}

/** An angle in fists at arm's length, ten degrees each: `2½ fists`. */
export const fistsAngle = (words: Words, fists: number): string =>
  fists < 1 ? words.say('page.fists-half') : words.say('page.fists', { count: fists, fists: halvesText(words, fists) })
