const GREEK_LETTERS =
  'α alpha β beta γ gamma δ delta ε epsilon ζ zeta η eta θ theta ι iota κ kappa λ lambda μ mu ν nu ξ xi ο omicron π pi ρ rho ς sigma σ sigma τ tau υ upsilon φ phi χ chi ψ psi ω omega'
const WHOLE_LETTERS = 'ø o ł l đ d ð d þ th ß ss æ ae œ oe ı i ħ h'

const pairs = (list: string): ReadonlyMap<string, string> => {
  const words = list.split(' ')
  return new Map(words.flatMap((word, i) => (i % 2 === 0 ? [[word, words[i + 1] ?? ''] as const] : [])))
}
const greekWords = pairs(GREEK_LETTERS)
const latinLetters = pairs(WHOLE_LETTERS)

/** The English word for a small Greek letter (`α` gives `alpha`), or undefined for any other text. */
export const greekWord = (letter: string): string | undefined => greekWords.get(letter)

/**
 * Text as search compares it: small letters without accents, a lone Greek letter as its word, apostrophes dropped,
 * letters and digits apart, everything else one blank. `NGC869`, `ngc 869` and `NGC-869` all give `ngc 869`; no letters or digits give ''.
 */
export function foldText(text: string): string {
  const plain = text.toLowerCase().replace(/['`]/g, '')
  const letters = /^[\x20-\x7e]*$/.test(plain) ? plain : latinised(plain)
  return letters.match(/\p{L}+|\p{N}+/gu)?.join(' ') ?? ''
}

const GREEK = '(?=\\p{L})\\p{Script=Greek}' // a letter: the script has numbers and signs too
const loneGreekLetter = new RegExp(`(?<!${GREEK})${GREEK}(?!${GREEK})`, 'gu')

/** Small letters in any script without accents; letters that no accent explains become Latin ones, a lone Greek letter its word. */
const latinised = (text: string): string =>
  text
    .normalize('NFKD')
    .toLowerCase()
    .replace(/\p{M}|['’ʻʼ´]/gu, '')
    .replace(/[^\x20-\x7e]/gu, (letter) => latinLetters.get(letter) ?? letter)
    .replace(loneGreekLetter, (letter) => ` ${greekWords.get(letter) ?? letter} `)

/** Folded text without its blanks, as aliases are compared. */
export const joined = (folded: string): string => folded.replaceAll(' ', '')

/** `Alpha Cen`, `α Cen` and `alpha-cen` all give `alphacen`. */
export const foldAlias = (text: string): string => joined(foldText(text))

/** Folded names one after the other with a bar between, each once, so that no phrase reaches from one into the next. */
export const barred = (folded: readonly string[]): string =>
  [...new Set(folded)].filter((name) => name !== '').join(' | ')
