import { DateTime } from 'luxon'
import type { Problem } from '../errors.ts'
import { type Dated, eveningDate, nightHours, noonOf } from './hours.ts'
import type { OwnObjectDraft, OwnThing } from './own-object.ts'

/** A sight for bare eyes that passes over: when and where (compass points, 0 is north) it comes up, and is gone. */
export interface SkyPass {
  readonly fromAt: Date
  readonly toAt: Date
  readonly fromPoint: number
  readonly toPoint: number
}

/** A thing on the list with its pass. */
export interface PassingThing extends OwnThing {
  readonly pass: SkyPass
}

const LONGEST_MIN = 120
const MINUTE_MS = 60_000

/** The pass of a draft; null for what does not pass. */
export function passOf({ fromAt, toAt, fromPoint, toPoint }: OwnObjectDraft): SkyPass | null {
  if (fromAt === undefined || toAt === undefined || fromPoint === undefined || toPoint === undefined) return null
  return { fromAt: new Date(fromAt), toAt: new Date(toAt), fromPoint, toPoint }
}

/** What is wrong with the times of a pass. */
export function passProblems({ fromAt, toAt }: OwnObjectDraft): Problem[] {
  if (fromAt === undefined || toAt === undefined) return []
  const unreal = [{ fromAt }, { toAt }].flatMap((each) =>
    Object.entries(each).flatMap(([field, text]) => (isReal(text) ? [] : [{ field, key: 'problem.no-such-instant' }])),
  )
  if (unreal.length > 0) return unreal
  const minutes = (new Date(toAt).getTime() - new Date(fromAt).getTime()) / MINUTE_MS
  if (minutes <= 0) return [{ field: 'toAt', key: 'problem.pass-order' }]
  return minutes > LONGEST_MIN ? [{ field: 'toAt', key: 'problem.pass-long', values: { maximum: LONGEST_MIN } }] : []
}

const isReal = (text: string): boolean => DateTime.fromISO(text).isValid

/** The things on the list that pass over in the public hours of a night, in the order of their times. */
export function passesIn(night: Dated, things: readonly OwnThing[]): readonly PassingThing[] {
  const { opensAt, closesAt } = nightHours(night)
  return things
    .flatMap((thing) => {
      const pass = thing.isListed ? passOf(thing.draft) : null
      return pass !== null && pass.fromAt < closesAt && pass.toAt > opensAt ? [{ ...thing, pass }] : []
    })
    .sort((a, b) => a.pass.fromAt.getTime() - b.pass.fromAt.getTime())
}

const LOCAL = /^(\d{4}-\d{2}-\d{2})[ T]+(\d{1,2}:\d{2}(?::\d{2})?)$/
const ZONED = /^(\d{4}-\d{2}-\d{2})[ T]+(\d{1,2}:\d{2}(?::\d{2})?) *(Z|[+-]\d{2}:?\d{2})$/i

/** True for a date and a clock time without a zone: only a night tells which instant is meant. */
export const isLocalTime = (text: string): boolean => LOCAL.test(text.trim())

/**
 * The instant of a time as a host types it, as ISO 8601 with Z: with its zone, or by the clocks of the night on which it
 * falls, noon to noon. Undefined for what is no time, and where no night, or nights of different clocks, have that time.
 */
export function typedInstant(text: string, nights: readonly Dated[]): string | undefined {
  const [, day = '', zonedTime = '', zone = ''] = ZONED.exec(text.trim()) ?? []
  if (day !== '') return utc(DateTime.fromISO(`${day}T${padded(zonedTime)}${zone.toUpperCase()}`))
  const [, date = '', time = ''] = LOCAL.exec(text.trim()) ?? []
  const local = `${date}T${padded(time)}`
  const found = new Set(nights.flatMap((night) => (date === '' ? [] : (onNight(local, night) ?? []))))
  return found.size === 1 ? [...found][0] : undefined
}

/** `9:05` as `09:05`. */
const padded = (time: string): string => (time.indexOf(':') === 1 ? `0${time}` : time)

function onNight(local: string, night: Dated): string | undefined {
  const at = DateTime.fromISO(local, { zone: night.site.zone })
  const noonAt = noonOf(eveningDate(night), night.site.zone)
  const nextNoonAt = DateTime.fromJSDate(noonAt, { zone: night.site.zone }).plus({ days: 1 }).toJSDate()
  return at.isValid && at.toJSDate() >= noonAt && at.toJSDate() < nextNoonAt ? utc(at) : undefined
}

const utc = (at: DateTime): string | undefined => (at.isValid ? at.toJSDate().toISOString() : undefined)

/** An instant as a host would type it: by the clocks of the night on which it falls, else as it stands. */
export function instantAsTyped(iso: string, nights: readonly Dated[]): string {
  for (const night of nights) {
    const local = DateTime.fromISO(iso, { zone: night.site.zone }).toFormat('yyyy-MM-dd HH:mm:ss')
    if (typedInstant(local, nights) === iso) return local
  }
  return iso
}
