import { type InMonth, inMonth, moonlessChance, moonlessSky, unseen } from '../tours/good-month.ts'
import { type MonthNight, monthNight, moonNight } from '../tours/month-night.ts'
import { monthOfYear, seasonOf, yearOfEvenings } from '../tours/season.ts'
import { placeOf } from '../tours/site.ts'
import type { ShowObject } from '../tours/target.ts'
import type { JobKinds, WorkerStart } from './job-kinds.ts'

type Slices<Answer> = Generator<undefined, Answer>

const HOUR_MS = 3_600_000
const THINGS_A_SLICE = 50

/** Reckons in which months things are sights of the evening, and what the kit shows of them in one month. */
export function* seasonSlices(
  { ask, extra, only }: JobKinds['season']['asked'],
  start: Pick<WorkerStart, 'objects'>,
): Slices<JobKinds['season']['answer']> {
  const objects = only === null ? [...start.objects, ...extra] : [only]
  const place = placeOf(ask.site)
  const evenings = yearOfEvenings(monthOfYear(ask.month), place)
  const middle = monthNight(ask)
  const found = new Map<string, InMonth>()
  yield* look(
    middle,
    objects.filter(({ kind }) => kind !== 'moon'),
    found,
  )
  yield* look(
    moonNight(ask),
    objects.filter(({ kind }) => kind === 'moon'),
    found,
  )
  const things = []
  for (const [i, object] of objects.entries()) {
    const seen = found.get(object.key) ?? unseen(object.key)
    things.push({ ...seen, season: seasonOf(object, place, evenings) })
    if (i % THINGS_A_SLICE === THINGS_A_SLICE - 1) yield
  }
  return { things, isDark: isDarkForAnHour(middle) }
}

const isDarkForAnHour = (night: MonthNight | null): boolean =>
  night !== null && night.darkAt !== null && night.closesAt.getTime() - night.darkAt.getTime() >= HOUR_MS

function* look(month: MonthNight | null, objects: readonly ShowObject[], found: Map<string, InMonth>): Slices<void> {
  if (month === null || objects.length === 0) return
  const sky = moonlessSky(month, objects)
  yield
  const chance = moonlessChance(sky, month, objects)
  yield
  for (const seen of inMonth(month, sky, chance, objects)) {
    found.set(seen.key, seen)
    if (found.size % THINGS_A_SLICE === 0) yield
  }
}
