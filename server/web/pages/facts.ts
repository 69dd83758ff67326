import type { ShowObject } from '../../tours/target.ts'
import type { Words } from '../../words/words.ts'

/** A fact as a short sentence, and the column of the catalogue that it comes from. */
interface Fact {
  readonly column: keyof ShowObject
  readonly text: string
}

/** What the catalogue knows of an object beside its distance. */
export function factsOf(words: Words, { colours, starCount, separationArcsec }: ShowObject): readonly Fact[] {
  const digits = separationArcsec !== null && separationArcsec < 10 ? 1 : 0
  const facts: readonly (Fact | null)[] = [
    colours && { column: 'colours', text: words.say('card.colours', { one: colours[0], other: colours[1] }) },
    separationArcsec === null
      ? null
      : {
          column: 'separationArcsec',
          text: words.say('card.separation', { arcsec: words.number(separationArcsec, digits) }),
        },
    starCount === null
      ? null
      : { column: 'starCount', text: words.say('card.stars', { stars: words.number(rounded(starCount)) }) },
  ]
  return facts.filter((fact) => fact !== null)
}

/** The same as sentences alone. */
export const factLines = (words: Words, object: ShowObject): string[] => factsOf(words, object).map(({ text }) => text)

const MILLION = 1_000_000

/** How far away an object is, rounded and said with "about"; null for things of our own Solar System and unknown ones. */
export function distanceText(words: Words, { distanceLy }: Pick<ShowObject, 'distanceLy'>): string | null {
  if (distanceLy === null || distanceLy < 1) return null
  const about = rounded(distanceLy)
  if (about >= MILLION)
    return words.say('card.distance-millions', {
      millions: words.number(about / MILLION, about < 10 * MILLION ? 1 : 0),
    })
  return words.say('card.distance', { years: words.number(about) })
}

/** A number with two digits that mean something: published values differ by tens of per cent. */
export function rounded(value: number): number {
  if (value < 10) return Math.round(value)
  const step = 10 ** (Math.floor(Math.log10(value)) - 1)
  return Math.round(value / step) * step
}
