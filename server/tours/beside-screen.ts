import type { HalfHourSpan, PictureLine } from './beside-lines.ts'
import { stopsIn } from './beside-shown.ts'
import type { EveningSky } from './evening.ts'
import { nightHours, remarkClock } from './hours.ts'
import type { Night } from './night.ts'
import { comesAt, type WhyNot, whyNotOf } from './offered.ts'
import { ANYONE } from './rules.ts'
import { instantAtStep, stepAt } from './sky-at.ts'
import { isForTelescopes, type ObjectKind, type ShowObject } from './target.ts'
import type { Remark, Stop } from './tour.ts'
import { BARE_EYE } from './walks.ts'

interface ScreenInput {
  readonly night: Night
  readonly sky: EveningSky
  readonly objects: readonly ShowObject[]
  readonly stops: readonly Stop[]
  /** What screens showed before, newest last. */
  readonly before: readonly string[]
}

// Choices: what so many see so well needs no picture; a picture of less delights nobody; nobody wants one of a star.
const WELL_SHOWN = 0.7
const SHOWPIECE_APPEAL = 0.65
/** A thing that comes later than so long after the closing belongs to another season. */
const LATE_MS = 4 * 3_600_000
const NO_PICTURE: readonly ObjectKind[] = ['star', 'red-star', 'double', 'asterism']

/**
 * What a screen shows in a half hour: what newcomers see worst at the eyepieces then, unless the screen showed it just
 * before; else a showpiece of the season that is not up or hidden; null where there is neither.
 */
export function pictureIn(input: ScreenInput, half: HalfHourSpan): PictureLine | null {
  const hard = stopsIn(input.stops, half).toSorted((a, b) => a.chance * a.view - b.chance * b.view)
  const wanted = hard.filter(({ chance, view }) => chance * view < WELL_SHOWN)
  const isFresh = ({ targetKey }: Stop): boolean => targetKey !== input.before.at(-1)
  const worst = wanted.find(isFresh)
  if (worst !== undefined) return ofStop(input, worst)
  const hidden = hiddenIn(input, half)
  if (hidden !== null) return hidden
  const stop = hard.find(isFresh) ?? hard[0]
  return stop === undefined ? null : ofStop(input, stop)
}

function ofStop({ night }: ScreenInput, { stationId, targetKey, aim, chance }: Stop): PictureLine {
  const station = night.stations.find(({ id }) => id === stationId)?.name ?? stationId
  const remark: Remark =
    chance >= ANYONE
      ? { code: 'beside.screen-small', values: { station } }
      : { code: 'beside.screen-hard', values: { station, newcomers: Math.round(100 * chance) } }
  return { what: 'picture', targetKey, aim, remarks: [remark] }
}

/** The most appealing showpiece that is not up in the middle of the half hour, or hidden then, and was on no screen tonight. */
function hiddenIn(input: ScreenInput, { fromAt, toAt }: HalfHourSpan): PictureLine | null {
  const middleAt = new Date((fromAt.getTime() + toAt.getTime()) / 2)
  const showpieces = input.objects
    .filter(
      (object) => isForTelescopes(object) && object.appeal >= SHOWPIECE_APPEAL && !NO_PICTURE.includes(object.kind),
    )
    .filter(({ key }) => !input.before.includes(key))
    .sort((a, b) => b.appeal - a.appeal)
  for (const { key } of showpieces) {
    const remark = whyHidden(input, key, middleAt)
    if (remark !== null) return { what: 'picture', targetKey: key, aim: 'whole', remarks: [remark] }
  }
  return null
}

/** Why a thing cannot be seen at an instant though it is there at another time of the same night; null when it can, or never. */
function whyHidden({ night, sky }: ScreenInput, key: string, at: Date): Remark | null {
  const targetIndex = sky.targetKeys.indexOf(key)
  if (targetIndex < 0) return null
  const whyNot = whyNotOf({ sky, site: night.site, mount: BARE_EYE }, targetIndex)
  const cause = whyNot(stepAt(sky, at))
  if (cause === null || cause.code === 'sun') return null
  const lastMs = Math.min(nightHours(night).closesAt.getTime() + LATE_MS, instantAtStep(sky, sky.count - 1).getTime())
  const comes = comesAt(sky, whyNot, at, new Date(lastMs))
  if (comes !== null) return comesRemark(night, comes.at, cause.code === 'skyline' ? (cause.name ?? '') : null)
  return wasUp(sky, whyNot, at) ? { code: 'beside.screen-gone' } : null
}

function comesRemark(night: Night, at: Date, behind: string | null): Remark {
  const time = remarkClock(at, night.site.zone)
  if (at >= nightHours(night).closesAt) return { code: 'beside.screen-late', values: { time } }
  if (behind === null) return { code: 'beside.screen-later', values: { time } }
  return behind === ''
    ? { code: 'beside.screen-behind', values: { time } }
    : { code: 'beside.screen-behind-named', values: { time, name: behind } }
}

const wasUp = (sky: EveningSky, whyNot: WhyNot, at: Date): boolean => {
  for (let step = 0; step < stepAt(sky, at); step++) if (whyNot(step) === null) return true
  return false
}
