import type { Words } from './words.ts'

/** One of sixteen compass points by its letters, `SSW`; 0 is north, 4 east. */
export const pointShort = (words: Words, point: number): string =>
  words.say(`drawing.point-${((point % 16) + 16) % 16}`)

/** As maps and forecasts write them in many languages. */
const LETTERS = ['N', 'NNE', 'NE', 'ENE', 'E', 'ESE', 'SE', 'SSE', 'S', 'SSW', 'SW', 'WSW', 'W', 'WNW', 'NW', 'NNW']

/** The point, 0 to 15, that somebody names by its word or letters, or by the English letters; undefined for anything else. */
export function pointNamed(words: Words, text: string): number | undefined {
  const said = plainName(text)
  const named = [
    (point: number) => words.say(`page.point-${point}`),
    (point: number) => pointShort(words, point),
    (point: number) => LETTERS[point] ?? '',
  ].map((nameOf) => LETTERS.findIndex((_letters, point) => plainName(nameOf(point)) === said))
  return named.find((point) => point >= 0)
}

/** North-West, north west and northwest are one name. */
const plainName = (text: string): string => text.toLowerCase().replace(/[^\p{L}\d]+/gu, '')

/** A number to the half below, `2½`. */
export function halvesText(words: Words, value: number): string {
  const whole = Math.max(0, Math.floor(value))
  if (value - whole < 0.5) return words.number(whole)
  return whole === 0 ? '½' : `${words.number(whole)}½`
}

/** An angle in fists at arm's length, ten degrees each: `2½ fists`. */
export const fistsAngle = (words: Words, fists: number): string =>
  fists < 1 ? words.say('page.fists-half') : words.say('page.fists', { count: fists, fists: halvesText(words, fists) })
