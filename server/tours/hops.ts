import type { Horizontal } from '../sky/horizontal.ts'
import { type Chain, type ChainNeeds, chainTo, eyeChainTo } from './hops-chain.ts'
import { clockHour, type Frame, frameAt, halfWay } from './hops-frame.ts'
import type { FinderStar, HopsView } from './hops-star.ts'

export type { Frame } from './hops-frame.ts'
export type { FinderStar } from './hops-star.ts'

import { placeCause } from './offered.ts'
import { apartDeg } from './sky-at.ts'
import type { Cause } from './tour.ts'
import { BARE_EYE } from './walks.ts'

/** What is to be found, and where it is seen. */
export interface FinderTarget {
  readonly name: string
  /** V; null where unknown, which counts as faint. */
  readonly magnitude: number | null
  /** True for a star or a planet, false for what looks like a cloud or a field of stars. */
  readonly isPoint: boolean
  readonly direction: Horizontal
}

/** From one star to the next; `toward` is null for the last one, which reaches the target. */
export interface Hop {
  readonly from: FinderStar
  readonly toward: FinderStar | null
  readonly distanceDeg: number
  /** 1 to 12 on a chart with the zenith up: 12 leads toward overhead. */
  readonly clockHour: number
  /** Widths of the finder's field, to a half. */
  readonly fields: number
  /** True for a way between two things that bare eyes see. */
  readonly isByEye: boolean
}

/** At most four hops from a bright star to a target; one where the target is seen with bare eyes or lies within one field of a bright star. */
export interface Hops {
  readonly kind: 'hops'
  readonly start: FinderStar
  readonly hops: readonly Hop[]
  readonly frame: Frame
}

/** Bare eyes find it without any way. */
interface ByEyes {
  readonly kind: 'eyes'
  readonly frame: Frame
}

/** Why there is no way: the target is behind or below something, or no star leads to it. */
export interface NoWay {
  readonly kind: 'none'
  readonly cause: Cause | { readonly code: 'star' }
}

export type Way = Hops | ByEyes | NoWay

// Choices; common practice, no source.
const PLAIN_MAG = 1.5
const EYE_POINT_MAG = 3.2
const IN_FINDER_MAG = 5.5
/** A star so near is the target, or stands in it. */
const SAME_DEG = 0.2

/** The way to a target: which bright star to begin at and from which star to which to go; everything it passes stands above trees and roofs. */
export function hopsTo(target: FinderTarget, stars: readonly FinderStar[], view: HopsView): Way {
  const { direction, magnitude, isPoint } = target
  const barred = placeCause(direction, view.site, BARE_EYE)
  if (barred !== null) return { kind: 'none', cause: barred }
  if (magnitude !== null && magnitude <= PLAIN_MAG) return { kind: 'eyes', frame: frameAt(direction) }
  const others = stars.filter((star) => apartDeg(star.direction, direction) > SAME_DEG)
  const isInFinder = magnitude !== null && magnitude <= IN_FINDER_MAG
  const needs: ChainNeeds = { ...view, target: direction, isInFinder, stars: others }
  const isByEye = isPoint && magnitude !== null && magnitude <= EYE_POINT_MAG
  const chain = (isByEye ? eyeChainTo(needs) : null) ?? chainTo(needs)
  return chain === null ? { kind: 'none', cause: { code: 'star' } } : wayOf(chain, target, view, isByEye)
}

function wayOf(chain: Chain, { direction }: FinderTarget, { finderFieldDeg }: HopsView, isByEye: boolean): Hops {
  const [start] = chain
  const frame = frameAt(halfWay(start.direction, direction))
  const hops = chain.map((from, index): Hop => {
    const toward = chain[index + 1] ?? null
    const end = toward?.direction ?? direction
    const distanceDeg = apartDeg(from.direction, end)
    const hour = clockHour(frame.flat(from.direction), frame.flat(end))
    const fields = Math.round((2 * distanceDeg) / finderFieldDeg) / 2
    return { from, toward, distanceDeg, clockHour: hour, fields, isByEye: isByEye && chain.length === 1 }
  })
  return { kind: 'hops', start, hops, frame }
}
