import { type Backdrop, backdropOf, dazzleOf } from './backdrop.ts'
import { type ChanceWord, chanceOf, chanceWord, type Dazzle } from './chance.ts'
import type { Conditions } from './conditions.ts'
import type { Impression } from './impression.ts'
import { type LimitAt, limitOf, limitThrough } from './limit.ts'
import { lookOf } from './look.ts'
import type { View } from './optics.ts'
import { type Reason, reasonsFor } from './reasons.ts'
import { type SkyGeometry, type SkyParts, skyBrightness, skyCd } from './sky-brightness.ts'
import type { Subject } from './subject.ts'

export { chanceWord } from './chance.ts'
export type { Reason } from './reasons.ts'

/** What a newcomer will see of a thing in one view at one moment, and why. */
export interface Sighting {
  /** Chance to see it, 0 to 1, and the same for a public that needs much (5) or little (2.4) more light than a laboratory's observer. */
  readonly chance: number
  readonly chanceLow: number
  readonly chanceHigh: number
  /** Magnitudes above (positive) what half of the newcomers see; -99 below the horizon. */
  readonly marginMag: number
  /** V of the faintest star that half of the newcomers see there, air included; null below the horizon. */
  readonly limitMag: number | null
  /** How it shows to those who see it, 0 to 1: there 0.3, shape 0.6, detail 0.85, a gasp 1. */
  readonly view: number
  readonly word: ChanceWord
  /** Heaviest first. */
  readonly reasons: readonly Reason[]
  readonly sky: SkyParts
}

export interface ChanceAndView {
  readonly chance: number
  readonly view: number
}

/** Chance and view for any place and sky; a backdrop that is known already need not be reckoned again (the Moon's own is, for it does not stand before its own light). */
export type Prepared = (geometry: SkyGeometry, known?: Backdrop) => ChanceAndView

const UNSEEN: ChanceAndView = { chance: 0, view: 0 }
const DOWN_MAG = -99
const HARDEST_FACTOR = 5
const EASIEST_FACTOR = 2.4

/** The Moon does not light the sky behind itself. */
const behind = (subject: Subject, geometry: SkyGeometry): SkyGeometry =>
  subject.kind === 'moon' ? { ...geometry, moon: null } : geometry

/** Makes ready everything about a thing in a view that no sky changes, for tables of many moments. */
export function prepare(subject: Subject, view: View, conditions: Conditions): Prepared {
  const look = lookOf(subject, view)
  const limitAt = limitThrough(view, conditions)
  const isMoon = subject.kind === 'moon'
  return (geometry, known) => {
    if (geometry.altitudeDeg <= 0) return UNSEEN
    const { air, dazzle, skyCd: knownCd } = known ?? backdropOf(geometry, conditions)
    const cd = isMoon ? skyCd(behind(subject, geometry), conditions) : knownCd
    const { lightMag, otherMag, view: shown } = look(limitAt(cd, air))
    return { chance: chanceOf(lightMag, otherMag, dazzle), view: shown }
  }
}

/** Chance and view, both 0 to 1, without reasons; the same numbers as `sighting`. */
export const chanceAndView = (
  subject: Subject,
  geometry: SkyGeometry,
  view: View,
  conditions: Conditions,
): ChanceAndView => prepare(subject, view, conditions)(geometry)

/** What a newcomer will see of this thing there and then in this view, with the reasons; chance and view are 0 below the horizon. */
export function sighting(subject: Subject, geometry: SkyGeometry, view: View, conditions: Conditions): Sighting {
  const sky = skyBrightness(behind(subject, geometry), conditions)
  if (geometry.altitudeDeg <= 0) return down(sky, geometry)
  const look = lookOf(subject, view)
  const limitAt: LimitAt = limitOf(view, conditions)
  const limit = limitAt(sky.totalCd, geometry.altitudeDeg)
  const impression = look(limit)
  const dazzle = dazzleOf(geometry, conditions)
  const scene = { subject, geometry, view, conditions, sky, look, limitAt, limit, impression, dazzle }
  return {
    ...chances(impression, dazzle, conditions.noviceFactor),
    marginMag: Math.min(impression.lightMag, impression.otherMag),
    limitMag: limit.starMag,
    view: impression.view,
    reasons: reasonsFor(scene),
    sky,
  }
}

function chances({ lightMag, otherMag }: Impression, dazzle: Dazzle, noviceFactor: number) {
  const withFactor = (factor: number) => chanceOf(lightMag + 2.5 * Math.log10(noviceFactor / factor), otherMag, dazzle)
  const chance = chanceOf(lightMag, otherMag, dazzle)
  return {
    chance,
    chanceLow: withFactor(Math.max(HARDEST_FACTOR, noviceFactor)),
    chanceHigh: withFactor(Math.min(EASIEST_FACTOR, noviceFactor)),
    word: chanceWord(chance),
  }
}

const down = (sky: SkyParts, { altitudeDeg }: SkyGeometry): Sighting => ({
  ...UNSEEN,
  chanceLow: 0,
  chanceHigh: 0,
  marginMag: DOWN_MAG,
  limitMag: null,
  word: 'not-tonight',
  reasons: [{ code: 'sight.below-horizon', values: { altitude: Math.round(altitudeDeg) } }],
  sky,
})
