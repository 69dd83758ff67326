import type { ChanceAndView } from '../sight/sighting.ts'
import { commonSpan, type HalfHourSpan, lengthMs } from './beside-lines.ts'
import type { Sight } from './beside-sights.ts'
import type { ClearSpan } from './clear-spans.ts'
import type { ObjectKind, ShowObject } from './target.ts'

/** A sight that can be shown for most of a half hour. */
export interface Offer {
  readonly sight: Sight
  readonly span: ClearSpan
  /** When its time in this half hour begins. */
  readonly fromAt: Date
  readonly seen: ChanceAndView
}

/** What was shown before: by key of the object the half hours (by number) in which it was. */
export type Before = ReadonlyMap<string, readonly number[]>

// Choices.
const LEAST_MS = 900_000
const SOON_MS = 3_600_000
const SHOWN_LAST = 0.1
const SHOWN_BEFORE = 0.6
const OF_FAMILY = 0.6
const LEAVES_SOON = 1.15

/** What can be shown in a half hour for a quarter of an hour, or for all of one that is shorter. */
export function offersIn(sights: readonly Sight[], half: HalfHourSpan): readonly Offer[] {
  const leastMs = Math.min(LEAST_MS, lengthMs(half))
  return sights.flatMap((sight) =>
    sight.spans
      .map((span) => ({ span, open: commonSpan({ fromAt: span.fromAt, toAt: span.untilAt }, half) }))
      .filter(({ open }) => lengthMs(open) >= leastMs)
      .slice(0, 1)
      .map(({ span, open: { fromAt } }) => ({ sight, span, fromAt, seen: sight.seenAt(fromAt) })),
  )
}

interface Choice {
  readonly worthOf: (offer: Offer) => number
  /** What is left of the worth of a thing beside another of the same half hour: 1 for two that have nothing in common. */
  readonly shareBeside: (one: Offer, other: Offer) => number
  readonly before: Before
  /** Number of the half hour. */
  readonly half: number
  readonly most: number
}

/**
 * The best of the offers, one after the other: by their worth, less for what was shown before and for what is like
 * another of the same half hour, a little more for what soon leaves. Never the same object twice.
 */
export function chosen(offers: readonly Offer[], choice: Choice): readonly Offer[] {
  const { worthOf, shareBeside, before, half, most } = choice
  const left = offers
    .map((offer) => ({ offer, worth: worthOf(offer) * freshness(before, offer.sight.object.key, half) * haste(offer) }))
    .filter(({ worth }) => worth > 0)
  const found: Offer[] = []
  while (found.length < most) {
    const open = left.filter(({ offer }) => !found.some((it) => it.sight.object.key === offer.sight.object.key))
    const rated = open.map(({ offer, worth }) => ({
      offer,
      worth: worth * Math.min(1, ...found.map((it) => shareBeside(it, offer))),
    }))
    const best = rated.reduce<(typeof rated)[number] | null>((a, b) => (a === null || b.worth > a.worth ? b : a), null)
    if (best === null) break
    found.push(best.offer)
  }
  return found
}

function freshness(before: Before, key: string, half: number): number {
  const shown = before.get(key) ?? []
  if (shown.includes(half - 1) || shown.includes(half)) return SHOWN_LAST
  return SHOWN_BEFORE ** shown.length
}

const haste = ({ span, fromAt }: Offer): number =>
  span.after !== null && span.untilAt.getTime() - fromAt.getTime() <= SOON_MS ? LEAVES_SOON : 1

const FAMILIES: Readonly<Partial<Record<ObjectKind, string>>> = {
  moon: 'body',
  planet: 'body',
  star: 'star',
  'red-star': 'star',
  double: 'star',
  asterism: 'pattern',
  'meteor-shower': 'shower',
}
const familyOf = ({ kind }: ShowObject): string => FAMILIES[kind] ?? 'glow'

/** What is left of the worth of a second thing of a family, such as a second star. */
export const shareInFamily = (one: Offer, other: Offer): number =>
  familyOf(one.sight.object) === familyOf(other.sight.object) ? OF_FAMILY : 1
