import { nightHours, quarterHours, wallClock } from './hours.ts'
import { slotsOf } from './limits.ts'
import type { Night } from './night.ts'
import type { ShowObject } from './target.ts'
import type { Remark } from './tour.ts'
import type { Wish } from './wish.ts'

/** What wishes are held against: the night, and everything that they may name. */
export interface WishGround {
  readonly night: Night
  readonly objects: readonly ShowObject[]
  readonly wishes: readonly Wish[]
}

/** The name of a thing and of a station as a sentence needs them. */
export const thingName = ({ objects }: Pick<WishGround, 'objects'>, key: string | null): string =>
  objects.find((object) => object.key === key)?.name ?? key ?? ''
export const placeName = ({ night }: Pick<WishGround, 'night'>, id: string | null): string =>
  night.stations.find((station) => station.id === id)?.name ?? ''

/** Quarters from one to another as clock times. */
export function hoursOf(night: Night, from: number, to: number): { readonly from: string; readonly to: string } {
  const borders = quarterHours(night)
  const { opensAt } = nightHours(night)
  const time = (slot: number): string => wallClock(borders[slot] ?? opensAt, night.site.zone)
  return { from: time(from), to: time(to) }
}

/** True for a wish that speaks of a station which has left the row: it sleeps until the station is back. */
export const isAsleep = ({ night }: Pick<WishGround, 'night'>, { stationId }: Wish): boolean =>
  stationId !== null && !night.stations.some(({ id }) => id === stationId)

/** How a wish contradicts itself or one that was kept before it, whatever the sky does; [] when it does not. */
export function clashesOf(ground: WishGround, wish: Wish): readonly Remark[] {
  const before = ground.wishes.slice(
    0,
    ground.wishes.findIndex(({ id }) => id === wish.id),
  )
  return [
    ...withoutTelescope(ground, wish),
    ...outsideHours(ground, wish),
    ...before.flatMap((other) => [
      ...twoPins(ground, wish, other),
      ...twoPurposes(ground, wish, other),
      ...barred(ground, wish, other),
      ...barred(ground, other, wish),
    ]),
    ...tooManyAtOnce(ground, wish, before),
  ]
}

function withoutTelescope(ground: WishGround, { stationId }: Wish): Remark[] {
  const { night } = ground
  if (night.stations.every(({ telescope }) => telescope === null)) return [{ code: 'tour.no-telescope' }]
  const station = night.stations.find(({ id }) => id === stationId)
  return station?.telescope === null ? [{ code: 'wish.no-telescope', values: { station: station.name } }] : []
}

function outsideHours({ night }: WishGround, wish: Wish): Remark[] {
  const [from, to] = slotsOf(wish, night, quarterHours(night))
  const { startsAt, endsAt } = wish
  if (to > from || startsAt === null || endsAt === null) return []
  return [{ code: 'wish.outside', values: { from: startsAt, to: endsAt, opens: night.opens, closes: night.closes } }]
}

/** The quarters that two wishes share; null when they share none. */
function shared({ night }: WishGround, a: Wish, b: Wish): readonly [number, number] | null {
  const borders = quarterHours(night)
  const [fromA, toA] = slotsOf(a, night, borders)
  const [fromB, toB] = slotsOf(b, night, borders)
  const [from, to] = [Math.max(fromA, fromB), Math.min(toA, toB)]
  return from < to ? [from, to] : null
}

function twoPins(ground: WishGround, wish: Wish, other: Wish): Remark[] {
  if (wish.kind !== 'pin' || other.kind !== 'pin' || wish.stationId !== other.stationId) return []
  const isSame =
    wish.targetKey === other.targetKey && (wish.aim === other.aim || wish.aim === null || other.aim === null)
  const both = isSame ? null : shared(ground, wish, other)
  if (both === null) return []
  const values = { ...hoursOf(ground.night, ...both), station: placeName(ground, wish.stationId) }
  const names = { target: thingName(ground, wish.targetKey), other: thingName(ground, other.targetKey) }
  return [{ code: 'wish.two-pins', values: { ...values, ...names } }]
}

function twoPurposes(ground: WishGround, wish: Wish, other: Wish): Remark[] {
  if (wish.kind !== 'only' || other.kind !== 'only' || wish.stationId !== other.stationId) return []
  return [{ code: 'wish.two-purposes', values: { station: placeName(ground, wish.stationId) } }]
}

/** A thing that is barred where another wish wants it. */
function barred(ground: WishGround, bar: Wish, wish: Wish): Remark[] {
  if (bar.kind !== 'bar' || wish.kind === 'bar' || wish.targetKey !== bar.targetKey) return []
  if (bar.aim !== null && bar.aim !== wish.aim) return []
  if (bar.stationId !== null && bar.stationId !== wish.stationId) return []
  const isForAWhile = bar.startsAt !== null && wish.kind !== 'pin'
  if (isForAWhile || shared(ground, bar, wish) === null) return []
  const target = thingName(ground, wish.targetKey)
  return wish.stationId === null
    ? [{ code: 'wish.barred-asked', values: { target } }]
    : [{ code: 'wish.barred-pinned', values: { target, station: placeName(ground, wish.stationId) } }]
}

/** A thing pinned at more telescopes than may show it at once. */
function tooManyAtOnce(ground: WishGround, wish: Wish, before: readonly Wish[]): Remark[] {
  const atOnce = ground.objects.find(({ key }) => key === wish.targetKey)?.atOnce ?? 1
  if (wish.kind !== 'pin') return []
  const others = before.filter(
    (other) => other.kind === 'pin' && other.targetKey === wish.targetKey && other.stationId !== wish.stationId,
  )
  const borders = quarterHours(ground.night)
  const [from, to] = slotsOf(wish, ground.night, borders)
  for (let t = from; t < to; t++) {
    const there = others.filter((other) => {
      const [begins, ends] = slotsOf(other, ground.night, borders)
      return begins <= t && t < ends && !isAsleep(ground, other)
    })
    const count = new Set(there.map(({ stationId }) => stationId)).size + 1
    if (count <= atOnce) continue
    const values = { target: thingName(ground, wish.targetKey), at: hoursOf(ground.night, t, t + 1).from }
    return [{ code: atOnce === 1 ? 'wish.too-many-one' : 'wish.too-many', values: { ...values, count, atOnce } }]
  }
  return []
}
