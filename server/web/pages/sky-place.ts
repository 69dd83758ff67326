import type { Words } from '../../words/words.ts'

const DEG_PER_HOUR = 15

/** A place of the sky as charts write it: `16 h 41.7 min, 36° 28′ north`. */
export const skyPlaceText = (words: Words, raDeg: number, decDeg: number): string =>
  words.say('value.place', { ra: raText(words, raDeg), dec: decText(words, decDeg) })

/** Right ascension in hours and minutes to the tenth. */
export function raText(words: Words, raDeg: number): string {
  const tenths = Math.round((raDeg / DEG_PER_HOUR) * 600) % 14_400
  return words.say('value.ra', { hours: Math.floor(tenths / 600), minutes: words.number((tenths % 600) / 10, 1) })
}

/** Declination in degrees and minutes, its half of the sky as a word. */
export function decText(words: Words, decDeg: number): string {
  const minutes = Math.round(Math.abs(decDeg) * 60)
  const values = { degrees: Math.floor(minutes / 60), minutes: minutes % 60 }
  return words.say(decDeg < 0 ? 'value.south' : 'value.north', values)
}
