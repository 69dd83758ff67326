const VOWEL = /[aeiouy]/
/** A word shorter than this must be there to its end; from a longer one the end may still be missing. */
const OPEN_FROM = 6

/** A word that may be mistyped: four letters or more, and no digit among them. */
export const mayBeMistyped = (word: string): boolean => /^\p{L}{4,}$/u.test(word)

const single = (word: string): string => word.replace(/(.)\1+/gu, '$1')

/**
 * True when a word, or its start for longer ones, was typed with one slip at most: a letter too many, missing, wrong, two
 * neighbours swapped, or one group of vowels written otherwise (`plaides` for `pleiades`). A letter doubled or not is no
 * slip at all. Both are folded.
 */
export const isOneSlipFrom = (typed: string, word: string): boolean =>
  isOneSlip(typed, word) || isOneSlip(single(typed), single(word))

function isOneSlip(typed: string, word: string): boolean {
  const at = alikeUpTo(typed, word)
  if (goesOn(typed, at, word, at) || goesOn(typed, at + 1, word, at)) return true
  if (goesOn(typed, at, word, at + 1) || goesOn(typed, at + 1, word, at + 1)) return true
  const isSwapped = typed[at] === word[at + 1] && typed[at + 1] === word[at]
  return (isSwapped && goesOn(typed, at + 2, word, at + 2)) || haveOtherVowels(typed, word, at)
}

/** True when from these places on both are the same, to the end of the word where that must be there. */
function goesOn(typed: string, inTyped: number, word: string, inWord: number): boolean {
  const count = alikeUpTo(typed, word, inTyped, inWord)
  const isAllTyped = inTyped + count >= typed.length
  return isAllTyped && (typed.length >= OPEN_FROM || inWord + count >= word.length)
}

/** How many letters from these places on are the same. */
function alikeUpTo(a: string, b: string, inA = 0, inB = 0): number {
  let count = 0
  while (inA + count < a.length && a[inA + count] === b[inB + count]) count++
  return count
}

function haveOtherVowels(typed: string, word: string, at: number): boolean {
  let from = at
  while (from > 0 && VOWEL.test(typed.charAt(from - 1))) from--
  const [inTyped, inWord] = [pastVowels(typed, from), pastVowels(word, from)]
  return inTyped > from && inWord > from && goesOn(typed, inTyped, word, inWord)
}

function pastVowels(word: string, from: number): number {
  let at = from
  while (VOWEL.test(word.charAt(at))) at++
  return at
}

const MOST_FOR_A_WORD = 8
const MOST_READINGS = 24

/**
 * Other ways to read a question whose words may be mistyped: each word that is none of the known ones becomes those it is
 * one slip from, or whose start it is. [] when a word can be read in no way, or when there is nothing to read otherwise.
 */
export function otherReadings(words: readonly string[], known: ReadonlySet<string>): readonly (readonly string[])[] {
  const choices = words.map((word) => (known.has(word) || !mayBeMistyped(word) ? [word] : candidates(word, known)))
  if (choices.every((choice, i) => choice.length === 1 && choice[0] === words[i])) return []
  return choices.reduce<readonly (readonly string[])[]>(
    (readings, choice) =>
      readings.flatMap((reading) => choice.map((word) => [...reading, word])).slice(0, MOST_READINGS),
    [[]],
  )
}

/** The known words that a typed one may stand for, those of nearly its length first. */
const candidates = (typed: string, known: ReadonlySet<string>): readonly string[] =>
  [...known]
    .filter((word) => isOneSlipFrom(typed, word))
    .sort((a, b) => Math.abs(a.length - typed.length) - Math.abs(b.length - typed.length) || (a < b ? -1 : 1))
    .slice(0, MOST_FOR_A_WORD)
