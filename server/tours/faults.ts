import type { BodyKey } from '../sky/body.ts'
import type { Place } from '../sky/place.ts'
import type { StarPlace } from '../sky/star.ts'

/** How far the setting up of a computerised mount has come when something is missed. */
export const FAULT_STAGES = ['before', 'one', 'both'] as const
export type FaultStage = (typeof FAULT_STAGES)[number]

/** What can have been done wrong, in the order in which equally likely ones are named. */
export const FAULT_CAUSES = [
  'hour',
  'wrong-star',
  'askew',
  'finder',
  'magnetic',
  'day-month',
  'half-day',
  'zone-sign',
  'longitude-sign',
  'latitude-sign',
  'other-site',
] as const
export type FaultCause = (typeof FAULT_CAUSES)[number]

/** A thing that a mount can be sent to. */
export interface FaultThing {
  readonly key: string
  readonly name: string
  readonly magnitude: number
  /** The place of what is fixed among the stars, or which body it is. */
  readonly place: StarPlace | BodyKey
}

/** Where a thing stands, seen from where the tube points, in degrees on the sky; left and lower are negative. */
export interface Miss {
  readonly rightDeg: number
  readonly upDeg: number
}

/** What an operator sees: how far off, or lost to the finder, or that the mount will not go there, or that only the eyepiece is empty. */
export type FaultSeen =
  | (Miss & { readonly kind: 'off'; readonly noiseDeg: number })
  | { readonly kind: 'lost' }
  | { readonly kind: 'refused' }
  | { readonly kind: 'finder' }

export interface FaultQuestion {
  readonly at: Date
  readonly place: Place
  readonly zone: string
  readonly declinationDeg: number
  readonly stage: FaultStage
  /** The stars on which the mount was set up so far: none, one or two. */
  readonly centred: readonly FaultThing[]
  readonly aimed: FaultThing
  readonly seen: FaultSeen
  /** Bright stars, any of which may have been taken for another, and bodies: what can be looked at next. */
  readonly lights: readonly FaultThing[]
  /** Other places that the mount may still have in its memory. */
  readonly otherPlaces: readonly Place[]
}

/** A cause with the miss that it would make here: of all the ways to make that mistake the one that fits best. */
export interface NamedFault {
  readonly cause: FaultCause
  readonly miss: Miss
  /** How likely it is, of all that was thought of, 0 to 1. */
  readonly share: number
  /** True when what was seen does not tell it from the likeliest, and for that one when there is such another. */
  readonly isTied: boolean
}

/** What to look at to tell causes apart, with the miss that each of them would make there. */
export interface FaultLook {
  readonly thing: FaultThing
  readonly misses: readonly Pick<NamedFault, 'cause' | 'miss'>[]
}

export interface FaultAnswer {
  /** The causes that explain what was seen, likeliest first; [] when none does. */
  readonly causes: readonly NamedFault[]
  /** What would tell them apart; null when there is nothing to tell apart, or when no look at the sky does. */
  readonly next: FaultLook | null
}

/** How far a miss lies from another, in degrees. */
export const missApartDeg = (a: Miss, b: Miss): number => Math.hypot(a.rightDeg - b.rightDeg, a.upDeg - b.upDeg)
