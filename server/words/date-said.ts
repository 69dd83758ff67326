import type { Problem } from '../errors.ts'
import type { Words } from './words.ts'

/** A calendar date `YYYY-MM-DD` that was said, or why it is none. */
type DateSaid = { readonly date: string } | Pick<Problem, 'key' | 'values'>

const ISO = /^(\d{4})-(\d{1,2})-(\d{1,2})$/
const NUMBERS = /^(\d{1,2})\s*[./-]\s*(\d{1,2})\s*[./-]\s*(\d{4})$/
const FEWEST_LETTERS = 3
/** A leap day comes at the latest after eight years. */
const YEARS_TO_LEAP = 9

/**
 * Reads a date as people write it: with the month as a word in any order, or in numbers where day and month cannot be
 * taken for each other. Without a year it is the next such day from `today` on.
 */
export function dateSaid(words: Words, text: string, today: string): DateSaid {
  const typed = text.trim()
  if (typed === '') return { key: 'problem.date-none' }
  const [, isoYear, isoMonth, isoDay] = ISO.exec(typed) ?? []
  if (isoYear !== undefined) return dayOf(Number(isoYear), Number(isoMonth), Number(isoDay))
  const [, first, second, year] = NUMBERS.exec(typed) ?? []
  if (first !== undefined) return inNumbers(words, Number(first), Number(second), Number(year))
  return inWords(words, typed, today)
}

function inNumbers(words: Words, first: number, second: number, year: number): DateSaid {
  if (first > 12 || first === second) return dayOf(year, second, first)
  if (second > 12) return dayOf(year, first, second)
  const [one, other] = [dayOf(year, second, first), dayOf(year, first, second)]
  if (!('date' in one)) return other
  if (!('date' in other)) return one
  return { key: 'problem.date-swap', values: { one: words.date(one.date), other: words.date(other.date) } }
}

function inWords(words: Words, typed: string, today: string): DateSaid {
  const months = (typed.toLowerCase().match(/\p{L}+/gu) ?? []).flatMap((word) => monthOf(words, word) ?? [])
  const numbers = (typed.match(/\d+/g) ?? []).map(Number)
  const [day, ...moreDays] = numbers.filter((number) => number <= 31)
  const [year, ...moreYears] = numbers.filter((number) => number > 31)
  const [month] = months
  const isClear = months.length === 1 && moreDays.length + moreYears.length === 0
  if (month === undefined || day === undefined || !isClear) return { key: 'problem.date-said' }
  if (year !== undefined) return dayOf(year, month, day)
  const thisYear = Number(today.slice(0, 4))
  const coming = Array.from({ length: YEARS_TO_LEAP }, (_, i) => dayOf(thisYear + i, month, day))
  return coming.find((said) => 'date' in said && said.date >= today) ?? { key: 'problem.no-such-day' }
}

/** The month, 1 to 12, whose name begins so. */
function monthOf(words: Words, word: string): number | undefined {
  if (word.length < FEWEST_LETTERS) return undefined
  const months = Array.from({ length: 12 }, (_, i) => i + 1)
  return months.find((month) => words.month(month).toLowerCase().startsWith(word))
}

function dayOf(year: number, month: number, day: number): DateSaid {
  const date = [String(year).padStart(4, '0'), two(month), two(day)].join('-')
  const at = new Date(Date.UTC(year, month - 1, day))
  const isDay = at.getUTCMonth() === month - 1 && at.getUTCDate() === day
  if (!isDay) return { key: 'problem.no-such-day' }
  return year >= 2000 && year <= 2099 ? { date } : { key: 'problem.date-century', values: { year } }
}

const two = (number: number): string => String(number).padStart(2, '0')
