import { chanceWord } from '../../sight/sighting.ts'
import type { CheckCause } from '../../tours/check.ts'
import type { WorldEvent } from '../../tours/light-left.ts'
import type { Pointing } from '../../tours/pointing.ts'
import type { Aim, ShowObject, Story } from '../../tours/target.ts'
import type { Remark, Stop, Tour } from '../../tours/tour.ts'
import { fistsAngle } from '../../words/directions.ts'
import type { Words } from '../../words/words.ts'

/** What pages ask of the catalogue: every key that a programme can hold has a name. */
export interface Names {
  readonly nameOf: (key: string) => string
  readonly show: (key: string) => ShowObject | undefined
  readonly story: (key: string) => Story | undefined
  /** What happened on Earth while light was on its way. */
  readonly worldEvents: () => readonly WorldEvent[]
}

/** The name of a target as people say it; a close look says so. */
export const targetName = (words: Words, names: Names, key: string, aim: Aim): string =>
  aim === 'close' ? words.say('page.close-name', { name: names.nameOf(key) }) : names.nameOf(key)

/** Why something stops being well placed, in a word or two: `oak`, `too low`. */
export const causeText = (words: Words, cause: CheckCause): string =>
  cause.code === 'skyline' && !cause.name
    ? words.say('cause.trees')
    : words.say(`cause.${cause.code}`, { name: cause.name ?? '' })

/** `until 18:40: oak`. */
export const untilText = (words: Words, at: Date, cause: CheckCause, zone: string): string =>
  words.say('page.until', { time: words.time(at, zone), cause: causeText(words, cause) })

/** Where a value comes from; of one that nobody has looked up it says so, in the words of readers. */
export const sourceText = (words: Words, source: string): string =>
  words.called(source).replace('from memory', words.say('value.unchecked'))

const QUARTER_MIN = 15

/**
 * `until 18:30 (oak at 18:40)` when the sky ends a stop, since it could not stay another quarter hour; null for one that ends
 * because the plan moves on.
 */
export function leaveByText(
  words: Words,
  { leaveBy, endsAt }: Pick<Stop, 'leaveBy' | 'endsAt'>,
  zone: string,
): string | null {
  if (!leaveBy || leaveBy.at.getTime() - endsAt.getTime() >= QUARTER_MIN * 60_000) return null
  const values = { time: words.time(endsAt, zone), cause: causeText(words, leaveBy.cause) }
  return words.say('page.until-forced', { ...values, leave: words.time(leaveBy.at, zone) })
}

/** One of sixteen compass points in words; 0 is north, 4 east. */
export const pointText = (words: Words, point: number): string => words.say(`page.point-${((point % 16) + 16) % 16}`)

/** A height above the level horizon in fists at arm's length: `2½ fists up`. */
export const fistsText = (words: Words, fists: number): string =>
  fists < 0.5 ? words.say('page.fists-none') : words.say('page.fists-up', { fists: fistsAngle(words, fists) })

/** `west-south-west, 2½ fists up`, or that it is below the horizon. */
export const directionText = (
  words: Words,
  { altitudeDeg, point, fists }: Pointing & { altitudeDeg: number },
): string =>
  altitudeDeg <= 0
    ? words.say('page.below')
    : words.say('page.direction', { point: pointText(words, point), fists: fistsText(words, fists) })

/** How many newcomers will see it, in a word: `anyone sees it`. */
export const chanceText = (words: Words, chance: number): string => words.say(`sight.word-${chanceWord(chance)}`)

/** A remark of a lower floor as a sentence, its fractions and all magnitudes written to one decimal. */
export function remarkText(words: Words, { code, values = {} }: Remark): string {
  const written = Object.entries(values).map(([name, value]) => [name, plainValue(words, name, value)])
  return words.say(code, Object.fromEntries(written))
}

function plainValue(words: Words, name: string, value: string | number): string | number {
  if (typeof value === 'string')
    return value.replace(SECOND_TIME, (_all, time) => words.say('page.second-time', { time }))
  return name !== 'mag' && Number.isInteger(value) ? value : words.number(value, 1)
}

/** As remarks write a clock time that comes for the second time. */
const SECOND_TIME = /^(\d\d:\d\d) \(2\)$/

/** That nothing is planned; of a programme that is empty altogether, why. */
export const noStopsText = (words: Words, { stops, notices }: Pick<Tour, 'stops' | 'notices'>): string =>
  [
    words.say('page.no-stops'),
    ...(stops.length === 0 ? notices.slice(0, 1).map((notice) => remarkText(words, notice)) : []),
  ].join(' ')
