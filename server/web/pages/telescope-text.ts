import type { Role } from '../../tours/roles.ts'
import type { Finder } from '../../tours/telescope.ts'
import type { Words } from '../../words/words.ts'

/** Whom and what a telescope suits, in a few words; null where nothing is known. */
export function suitsText(words: Words, roles: readonly Role[]): string | null {
  const suits = roles.filter(({ isCaution }) => !isCaution).map(({ code }) => words.say(`${code}-short`))
  return suits.length === 0 ? null : words.say('kit.suits', { list: words.list(suits) })
}

const LENGTHS = ['low', 'high']

/** A role with its reason. */
export function roleText(words: Words, { code, values = {} }: Role): string {
  const written = Object.entries(values).map(([name, value]) => [
    name,
    typeof value !== 'number'
      ? value
      : LENGTHS.includes(name)
        ? words.length(value, 'centimeter')
        : words.number(value),
  ])
  return words.say(code, Object.fromEntries(written))
}

/** The finder in words; null where nobody has said. */
export function finderText(words: Words, finder: Finder | undefined): string | null {
  if (finder === undefined) return null
  const { kind, fieldDeg, powerX } = finder
  const known = [
    ...(powerX === null ? [] : [words.say('kit.power', { power: words.number(powerX) })]),
    ...(fieldDeg === null ? [] : [words.say('kit.finder-wide', { degrees: shortNumber(words, fieldDeg) })]),
  ]
  return [words.say(`kit.finder-${kind}`), ...known].join(', ')
}

/** With one decimal where it has one. */
const shortNumber = (words: Words, value: number): string => words.number(value, Number.isInteger(value) ? 0 : 1)
