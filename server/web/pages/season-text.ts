import type { Seasonal, Standpoint } from '../../desk/thing-kinds.ts'
import { chanceWord } from '../../sight/sighting.ts'
import { isPlainSite } from '../../tours/plain-sites.ts'
import { ALL_MONTHS, type Season } from '../../tours/season.ts'
import type { Site } from '../../tours/site.ts'
import { isForTelescopes, type ShowObject } from '../../tours/target.ts'
import type { Words } from '../../words/words.ts'
import { causeText, chanceText, fistsText } from './say.ts'
import type { Viewer } from './sheet.ts'

/** A site by its name, or one that nobody wrote by where it lies. */
export const siteText = ({ words, siteName }: Viewer, site: Site): string =>
  isPlainSite(site) ? words.say(`objects.site-${site.id}`) : siteName(site)

/** `November 2026` of `2026-11`. */
export const monthText = (words: Words, month: string): string =>
  words.say('objects.month-of', { month: words.month(Number(month.slice(5))), year: month.slice(0, 4) })

/** Months of the calendar as people say them: `December to March`, `May`; [] gives ''. */
export function monthsText(words: Words, months: readonly number[]): string {
  if (months.length === ALL_MONTHS.length) return words.say('objects.every-month')
  const isIn = (month: number): boolean => months.includes(((month - 1 + 12) % 12) + 1)
  const runs = months
    .filter((month) => !isIn(month - 1))
    .map((from) => {
      let to = from
      while (isIn(to + 1)) to += 1
      const [first, last] = [words.month(from), words.month(((to - 1) % 12) + 1)]
      return from === to ? first : words.say('objects.months-run', { from: first, to: last })
    })
  return words.list(runs)
}

const FIST_DEG = 10

/** When a thing is a sight of the evening, as a sentence. */
export function seasonText(words: Words, season: Season, object: Pick<ShowObject, 'kind'> | null, site: Site): string {
  const { code, months, highestDeg, peakAt, neverSets } = season
  if (code === 'stays-low') {
    const fists = Math.round((2 * (highestDeg ?? 0)) / FIST_DEG) / 2
    return words.say('objects.season-low', { fists: fistsText(words, fists) })
  }
  if (code === 'shower')
    return peakAt ? words.say('objects.season-shower', { date: words.dayAndMonth(peakAt, site.zone) }) : ''
  if (code !== 'months') return words.say(`objects.season-${code}`)
  const always = neverSets ? words.say('objects.never-sets') : ''
  if (months.length === 0) return words.say('objects.season-none', { always }).trim()
  const isWandering = object !== null && (object.kind === 'planet' || object.kind === 'planet-moon')
  const values = { months: monthsText(words, months), always }
  return words.say(isWandering ? 'objects.season-year' : 'objects.season-evenings', values).trim()
}

/** What the kit shows of a thing in the month, as a sentence; null for what is not reckoned. */
export function seenText(
  { words, telescopeName }: Viewer,
  at: Pick<Standpoint, 'site' | 'telescopes'>,
  object: ShowObject,
  seasonal: Seasonal,
): string | null {
  if (!isForTelescopes(object)) return null
  const { clear, chance, telescopeId } = seasonal
  if (clear === null) return words.say('objects.not-clear')
  const telescope = at.telescopes.find(({ id }) => id === telescopeId)
  const isUnseen = chanceWord(chance) === 'not-tonight'
  const seen = words.say('objects.seen-in', {
    chance: isUnseen ? words.say('objects.too-faint') : chanceText(words, chance),
    telescope: telescope ? telescopeName(telescope) : words.say('objects.kit-none'),
  })
  return [seen, spanText(words, at.site, clear)].filter((text) => text !== '').join(' ')
}

function spanText(
  words: Words,
  { zone }: Site,
  { fromAt, untilAt, before, after }: NonNullable<Seasonal['clear']>,
): string {
  const from = before ? words.say('objects.from', { time: words.time(roundedTo(fromAt, Math.ceil), zone) }) : ''
  const until = after
    ? words.say('objects.until', {
        time: words.time(roundedTo(untilAt, Math.floor), zone),
        cause: causeText(words, after),
      })
    : ''
  return [from, until].filter((text) => text !== '').join(' ')
}

const TEN_MIN_MS = 600_000
const roundedTo = (at: Date, round: (value: number) => number): Date =>
  new Date(round(at.getTime() / TEN_MIN_MS) * TEN_MIN_MS)

/** Whose telescopes are reckoned with. */
export function kitText({ words, telescopeName }: Viewer, { telescopes }: Pick<Standpoint, 'telescopes'>): string {
  const [first] = telescopes
  if (first === undefined) return words.say('objects.kit-none')
  return telescopes.length === 1
    ? words.say('objects.kit-one', { name: telescopeName(first) })
    : words.say('objects.kit-many', { count: telescopes.length })
}
