import { foldText, greekWord } from './fold.ts'
import type { ConstellationRow, StarNames, StarRow } from './rows.ts'

/** Full words for the letters of well-known lists; both ways of writing find the object. */
const LIST_WORDS: Readonly<Record<string, string>> = {
  m: 'messier',
  mel: 'melotte',
  cr: 'collinder',
  tr: 'trumpler',
  st: 'stock',
  b: 'barnard',
  gj: 'gliese',
}

/** A Bayer letter in words (`π3` gives `Pi3`); a Latin letter stays as it is. */
export function bayerWord(bayer: string): string {
  const word = greekWord(bayer.charAt(0))
  return word === undefined ? bayer : word.charAt(0).toUpperCase() + word.slice(1) + bayer.slice(1)
}

/** What a star is shown as: its IAU name, else letter, number or variable name with the genitive, else its number in a catalogue. */
export function starTitle(star: StarRow, names: StarNames | undefined, genitive: string): string {
  if (names === undefined) return `HIP ${star.hip}`
  if (names.name !== '') return names.name
  const within = bayerWord(names.bayer) || names.flamsteed || names.variable
  return within === '' ? names.nearby || names.hd || `HIP ${star.hip}` : `${within} ${genitive}`
}

/** Every designation of a star, the best known first, letters as words, with the constellation's code and its genitive. */
export function starDesignations(
  star: StarRow,
  names: StarNames | undefined,
  constellation: ConstellationRow | undefined,
): readonly string[] {
  const numbers = [names?.nearby ?? '', names?.hd ?? '', `HIP ${star.hip}`]
  const within = names === undefined ? [] : [bayerWord(names.bayer), names.flamsteed, names.variable]
  const places = constellation === undefined ? [] : [constellation.genitive, constellation.code]
  const named = within.filter((part) => part !== '').flatMap((part) => places.map((place) => `${part} ${place}`))
  return [...named, ...numbers].filter((designation) => designation !== '')
}

/** The same designation with its list's letters written out (`M 13` gives `messier 13`), or undefined when there is nothing to write out. */
export function writtenOut(designation: string): string | undefined {
  const [, letters = '', number] = /^(\p{L}+) (\d+( \p{L})?)$/u.exec(foldText(designation)) ?? []
  const word = LIST_WORDS[letters]
  return word && `${word} ${number}`
}

/** A numbered letter without its number (`Alpha1 Centauri` gives `Alpha Centauri`), or undefined for any other designation. */
export const withoutIndex = (designation: string): string | undefined =>
  /^\p{L}+\d /u.test(designation) ? designation.replace(/^(\p{L}+)\d /u, '$1 ') : undefined
