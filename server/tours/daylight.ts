import { isSunUp } from '../sky/sun-up.ts'
import type { EveningSky } from './evening.ts'
import { nightHours, remarkClock } from './hours.ts'
import type { Night } from './night.ts'
import { instantAtStep, stepAt, sunAtStep } from './sky-at.ts'
import type { Remark } from './tour.ts'

/** That the Sun is up in all of the public hours, and when it is down that night; null when some of them are without Sun. */
export function daylightOf({ night, sky }: { readonly night: Night; readonly sky: EveningSky }): Remark | null {
  const { opensAt, closesAt } = nightHours(night)
  const isUp = (step: number): boolean => isSunUp(sunAtStep(sky, step).altitudeDeg)
  const [opens, closes] = [Math.floor(stepAt(sky, opensAt)), Math.ceil(stepAt(sky, closesAt))]
  for (let step = opens; step <= closes; step++) if (!isUp(step)) return null
  const down = Array.from({ length: sky.count }, (_, step) => step).filter((step) => !isUp(step))
  const [first, last] = [down[0], down.at(-1)]
  if (first === undefined || last === undefined) return { code: 'tour.daylight-all' }
  const time = (step: number) => remarkClock(instantAtStep(sky, step), night.site.zone)
  return {
    code: 'tour.daylight',
    values: { opens: night.opens, closes: night.closes, from: time(first), to: time(last) },
  }
}
