import type { Night } from '../../tours/night.ts'
import type { OwnThing } from '../../tours/own-object.ts'
import { passesIn, passOf, type SkyPass } from '../../tours/own-pass.ts'
import type { Words } from '../../words/words.ts'
import { whyText } from './own-why.ts'
import { pointText } from './say.ts'

/** What was entered of a thing, as short sentences. */
export function ownFacts(words: Words, { draft, object }: OwnThing): readonly string[] {
  return [
    ...placeFacts(words, object),
    ...(passOf(draft) === null ? lightFacts(words, draft) : []),
    ...sizeFacts(words, draft),
    ...starFacts(words, draft),
    words.say('own.appeal-is', { appeal: words.number(draft.appeal, 2), reason: whyText(words, draft.appealReason) }),
  ]
}

const placeFacts = (words: Words, { raDeg, decDeg }: OwnThing['object']): readonly string[] =>
  raDeg === null || decDeg === null
    ? []
    : [words.say('own.place', { ra: words.number(raDeg, 2), dec: words.number(decDeg, 2) })]

function lightFacts(words: Words, { magnitude, secondMagnitude, distanceLy }: OwnThing['draft']): readonly string[] {
  const one = words.number(magnitude, 1)
  return [
    secondMagnitude === undefined
      ? words.say('own.magnitude-is', { magnitude: one })
      : words.say('own.magnitudes-are', { one, other: words.number(secondMagnitude, 1) }),
    ...(distanceLy === undefined ? [] : [words.say('own.distance-is', { years: words.number(distanceLy) })]),
  ]
}

function sizeFacts(words: Words, { kind, majorArcmin, minorArcmin, ...draft }: OwnThing['draft']): readonly string[] {
  const { condensation, fieldDeg } = draft
  const across = majorArcmin === undefined ? '' : words.number(majorArcmin, 1)
  if (kind === 'comet') return [words.say('own.coma-is', { arcmin: across, condensation: condensation ?? 0 })]
  if (fieldDeg !== undefined) return [words.say('own.field-is', { degrees: words.number(fieldDeg, 1) })]
  if (across === '') return []
  if (minorArcmin === undefined) return [words.say('own.size-is', { arcmin: across })]
  return [words.say('own.sizes-are', { one: across, other: words.number(minorArcmin, 1) })]
}

function starFacts(words: Words, draft: OwnThing['draft']): readonly string[] {
  const { starCount, brightestStarMag, separationArcsec, colour, secondColour } = draft
  return [
    ...(starCount === undefined ? [] : [words.say('own.stars-are', { stars: words.number(starCount) })]),
    ...(brightestStarMag === undefined
      ? []
      : [words.say('own.brightest-is', { magnitude: words.number(brightestStarMag, 1) })]),
    ...(separationArcsec === undefined
      ? []
      : [words.say('card.separation', { arcsec: words.number(separationArcsec, 1) })]),
    ...(colour === undefined || secondColour === undefined
      ? []
      : [words.say('card.colours', { one: colour, other: secondColour })]),
  ]
}

/** `19:42 to 19:48, from west to east-north-east, magnitude -3.1`, by the clocks of a zone. */
export function passText(words: Words, { fromAt, toAt, fromPoint, toPoint }: SkyPass, magnitude: number, zone: string) {
  return words.say('own.pass-is', {
    from: words.time(fromAt, zone),
    to: words.time(toAt, zone),
    start: pointText(words, fromPoint),
    end: pointText(words, toPoint),
    magnitude: words.number(magnitude, 1),
  })
}

/** A pass in the nights in whose public hours it falls, a line a night; one line with its instant where it falls in none. */
export function passLines(words: Words, thing: OwnThing, nights: readonly Night[]): readonly string[] {
  const pass = passOf(thing.draft)
  if (pass === null) return []
  const { magnitude } = thing.draft
  const lines = nights
    .filter((night) => passesIn(night, [{ ...thing, isListed: true }]).length > 0)
    .map((night) =>
      words.say('own.pass-in', {
        title: night.title,
        date: words.date(night.date),
        pass: passText(words, pass, magnitude, night.site.zone),
      }),
    )
  if (lines.length > 0) return lines
  const date = words.date(pass.fromAt.toISOString().slice(0, 10))
  return [words.say('own.pass-in-none', { date, pass: passText(words, pass, magnitude, 'UTC') })]
}
