import type { ShowObject } from '../../tours/target.ts'
import type { Words } from '../../words/words.ts'

/** What the catalogue knows of an object, as short sentences; beside a told story only the distance is left to say. */
export function factLines(words: Words, object: ShowObject, hasStory: boolean): string[] {
  const { distanceLy, colours, starCount, separationArcsec } = object
  const distance = distanceLy === null ? [] : [distanceText(words, distanceLy)]
  if (hasStory) return distance
  return [
    ...(colours ? [words.say('card.colours', { one: colours[0], other: colours[1] })] : []),
    ...(separationArcsec === null
      ? []
      : [words.say('card.separation', { arcsec: words.number(separationArcsec, separationArcsec < 10 ? 1 : 0) })]),
    ...(starCount === null ? [] : [words.say('card.stars', { stars: words.number(rounded(starCount)) })]),
    ...distance,
  ]
}

function distanceText(words: Words, distanceLy: number): string {
  const about = rounded(distanceLy)
  if (about < 1) return words.say('card.distance-near')
  if (about >= 1_000_000) return words.say('card.distance-millions', { millions: words.number(about / 1_000_000, 1) })
  return words.say('card.distance', { years: words.number(about) })
}

/** A number with two digits that mean something: published values differ by tens of per cent. */
export function rounded(value: number): number {
  if (value < 10) return Math.round(value)
  const step = 10 ** (Math.floor(Math.log10(value)) - 1)
  return Math.round(value / step) * step
}
