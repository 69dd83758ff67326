import { type LightLeft, lightLeft, type WorldEvent } from '../../tours/light-left.ts'
import type { ShowObject } from '../../tours/target.ts'
import type { Words } from '../../words/words.ts'
import { rounded } from './facts.ts'

/** When the light of a thing set out: one sentence for the face of a card, one with how sure that is. */
export interface LightText {
  readonly left: string
  readonly between: string
}

/** Up to so many years a year of the calendar says more than a count of years. */
const CALENDAR_YEARS = 150
const MILLION = 1_000_000
const STEPS = [5000, 1000, 500, 100, 50, 10, 5, 1]

/** Both sentences for the light that arrives on a night; null for things of unknown distance and those of our own Solar System. */
export function lightText(words: Words, object: ShowObject, at: Date, events: readonly WorldEvent[]): LightText | null {
  const light = lightLeft(object, at, events)
  return light && { left: leftText(words, light), between: betweenText(words, light) }
}

function leftText(words: Words, { yearsAgo, year, uncertainYears, event }: LightLeft): string {
  const when = event === null ? '' : words.say('light.when', { what: event.what })
  if (yearsAgo < CALENDAR_YEARS)
    return words.say('light.left-in', { year: yearText(words, year, uncertainYears), when })
  return words.say('light.left-ago', { ago: agoText(words, yearsAgo), when })
}

function betweenText(words: Words, { yearsAgo, year, uncertainYears }: LightLeft): string {
  const isCalendar = yearsAgo < 20_000
  const said = (off: number) =>
    isCalendar ? yearText(words, year + off, uncertainYears) : agoText(words, yearsAgo - off)
  const values = { from: said(-uncertainYears), to: said(uncertainYears) }
  return words.say(isCalendar ? 'light.between' : 'light.between-ago', values)
}

/** A count of years as people say it: two figures, millions as such. */
function agoText(words: Words, years: number): string {
  const about = rounded(years)
  if (about < MILLION) return words.number(about)
  return words.say('light.million', { count: words.number(about / MILLION, about < 10 * MILLION ? 1 : 0) })
}

/** A year no finer than it is known: `1580`, `600 BC`. */
function yearText(words: Words, year: number, uncertainYears: number): string {
  const step = STEPS.find((each) => each <= uncertainYears) ?? 1
  const about = Math.round(Math.floor(year) / step) * step
  return about > 0
    ? String(about)
    : words.say('light.bc', { year: words.number(step === 1 ? 1 - about : Math.max(step, -about)) })
}
