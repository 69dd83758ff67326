import type { BodyKey } from '../sky/body.ts'
import type { MoonQuarter } from '../sky/moon-quarters.ts'
import { type DateHours, type DateHoursAsk, dateHours } from './date-hours.ts'
import { type DateMoon, dateMoon, quartersAround } from './date-moon.ts'
import { type ChosenViews, planetsUp, showpiecesSeen } from './date-sights.ts'
import { skyThrough } from './evening.ts'
import { daysOf, noonOf, wallClock } from './hours.ts'
import { isEverShowpiece } from './missing-showpieces.ts'
import type { Night } from './night.ts'
import { rowNight } from './row-night.ts'
import { placeOf, type Site } from './site.ts'
import type { ShowObject } from './target.ts'
import type { Telescope } from './telescope.ts'

/** Where, with which telescopes and public, and in which hours of its evenings a month is looked at. */
export interface DatesAsk {
  readonly site: Site
  /** `YYYY-MM`. */
  readonly month: string
  readonly telescopes: readonly Telescope[]
  readonly noviceFactor: number
  readonly hours: DateHoursAsk
}

/** What the sky does on one date, before any rule is asked. */
export interface DateFacts extends DateHours {
  /** `YYYY-MM-DD`. */
  readonly date: string
  readonly moon: DateMoon
  readonly planets: readonly BodyKey[]
  /** Keys of the showpieces that the row shows to half of the newcomers and more. */
  readonly showpieces: readonly string[]
}

const STEP_MIN = 30
const MINUTE_MS = 60_000

/** Every date of a month, one a step, so that a caller may do something else in between. */
export function* monthOfDates(ask: DatesAsk, list: readonly ShowObject[]): Generator<DateFacts> {
  const objects = list.filter((object) => isEverShowpiece(object) || object.body !== null)
  const quarters = quartersAround(noonOf(`${ask.month}-01`, ask.site.zone))
  const views: ChosenViews = new Map()
  for (const date of daysOf(ask.month)) yield dateFacts({ ask, objects, quarters, views }, date)
}

interface Given {
  readonly ask: DatesAsk
  readonly objects: readonly ShowObject[]
  readonly quarters: readonly MoonQuarter[]
  readonly views: ChosenViews
}

function dateFacts({ ask, objects, quarters, views }: Given, date: string): DateFacts {
  const { events, ...hours } = dateHours(ask.site, date, ask.hours)
  const { opensAt, bedAt } = hours
  const fromAt = opensAt ?? bedAt
  const looksAt = new Date((fromAt.getTime() + bedAt.getTime()) / 2)
  const instants = stepsBetween(fromAt, bedAt)
  const sky = skyThrough({ key: date, instants, stepMin: STEP_MIN, looksAt, events, place: placeOf(ask.site) }, objects)
  const night = nightOn(ask, date, fromAt)
  const seen = { night, sky, objects }
  return {
    date,
    ...hours,
    moon: dateMoon(sky, quarters, looksAt),
    planets: opensAt === null ? [] : planetsUp(seen),
    showpieces: opensAt === null ? [] : showpiecesSeen(seen, views),
  }
}

/** Every half hour of the public hours. */
const stepsBetween = (fromAt: Date, untilAt: Date): readonly Date[] =>
  Array.from(
    { length: Math.floor((untilAt.getTime() - fromAt.getTime()) / (STEP_MIN * MINUTE_MS)) + 1 },
    (_, step) => new Date(fromAt.getTime() + step * STEP_MIN * MINUTE_MS),
  )

function nightOn({ site, telescopes, noviceFactor, hours }: DatesAsk, date: string, opensAt: Date): Night {
  const [opens, closes] = [wallClock(opensAt, site.zone), hours.bedtime]
  return rowNight({ id: date, date, opens, closes, site, telescopes, settings: { noviceFactor } })
}
