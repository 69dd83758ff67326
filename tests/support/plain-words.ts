/** The words of a text: whatever stands between spaces and holds a letter or a digit, in small letters, bare of signs. */
export const wordsOf = (text: string): readonly string[] =>
  text
    .split(/\s+/)
    .filter((word) => /[a-z0-9]/i.test(word))
    .map((word) => word.toLowerCase().replaceAll(/[^a-z0-9'-]/g, ''))

/** The sentences of a text, each ended by a full stop, a question mark or an exclamation mark before a space or the end. */
export const sentencesOf = (text: string): readonly string[] =>
  text.split(/(?<=[.?!])\s+/).filter((sentence) => sentence !== '')

/** Every run of so many words in a text. */
export function runsOf(text: string, length: number): readonly string[] {
  const words = wordsOf(text)
  return words.slice(length - 1).map((_word, start) => words.slice(start, start + length).join(' '))
}

/**
 * Syllables of a word by a simple rule: each group of vowels (y among them) is one, a last e after a consonant but not `le` is none,
 * a last `ed` is one only after t or d, each digit is one; never less than one for a part with letters.
 */
export function syllablesOf(word: string): number {
  const pieces =
    word
      .toLowerCase()
      .replaceAll("'", '')
      .match(/\d|[a-z]+/g) ?? []
  return pieces
    .map((piece) => (/\d/.test(piece) ? 1 : syllablesOfLetters(piece)))
    .reduce((sum, count) => sum + count, 0)
}

function syllablesOfLetters(letters: string): number {
  const groups = letters.match(/[aeiouy]+/g)?.length ?? 0
  const isSilent = /[^aeiouyl]e$|[aeiouy]le$|[^aeiouytd]ed$/.test(letters)
  return Math.max(1, groups - (isSilent ? 1 : 0))
}

/** The school grade of a text given in parts (Kincaid, Fishburne, Rogers & Chissom 1975, the grade level formula), syllables by `syllablesOf`. */
export function schoolGrade(texts: readonly string[]): number {
  const words = texts.flatMap(wordsOf)
  const sentences = texts.flatMap(sentencesOf).length
  const syllables = words.map(syllablesOf).reduce((sum, count) => sum + count, 0)
  return 0.39 * (words.length / sentences) + 11.8 * (syllables / words.length) - 15.59
}

/** The distances that a text gives in light-years, in figures; a width ("light-years wide", "light-years across") is none. */
export function lightYearsSaid(text: string): readonly number[] {
  const found = text.matchAll(/([\d.,]*\d)( million)? light-years(?! (?:wide|across))/g)
  return [...found].map(([, figures = '', million]) => Number(figures.replaceAll(',', '')) * (million ? 1e6 : 1))
}
